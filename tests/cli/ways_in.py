#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What people type means the same whichever way it comes in, and what is printed can be typed again.

  ways_in.py --program PATH
  ways_in.py --selftest       the checks must fail on a program that does everything wrong

The forms are those of tests/text/typed_forms.csv; what each of them means is for the tests of that
file to say, here each way in has to agree with the others.
"""

import csv
import io
import json
import re
import sqlite3
import sys
from pathlib import Path

from robust import main

FORMS = Path(__file__).resolve().parents[1] / "text" / "typed_forms.csv"
WHEN = "2021-03-05T10:00"


def forms(kind):
    """[(typed, accepted)] of one kind; years lie in the past of any clock."""
    found = []
    for line in FORMS.read_text(encoding="utf-8").splitlines():
        cells = line.split("|")
        if line.startswith("#") or cells[0] != kind or not cells[1].strip():
            continue
        found.append((cells[1].replace("2026", "2021"), cells[2] != ""))
    assert len(found) > 20, (kind, len(found))
    return found


def begin(bench):
    bench.good("instrument add stem-1")
    bench.good("batch add PT-1 --volume 5L --on 2021-03-01 --yes")


def readings(bench, what):
    """What was noted, in its order."""
    with sqlite3.connect(bench.notebook) as db:
        return [row[0] for row in db.execute(f"SELECT {what} FROM reading ORDER BY id")]


def table(head, rows, separator=","):
    text = io.StringIO()
    writer = csv.writer(text, delimiter=separator, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    return text.getvalue().encode()


def noted_one_by_one(bench, calls, what):
    """What each call noted; None if it was refused."""
    found = []
    for call in calls:
        code, _, _ = bench.run(call)
        rows = readings(bench, what)
        assert len(rows) <= len([x for x in found if x is not None]) + 1, call
        found.append(rows[-1] if code == 0 else None)
    return found


def imported(bench, head, cells, what, of="PT-2"):
    """The same of one table with a row for each cell, in order of the lines."""
    bench.good(f"batch add {of} --volume 5L --on 2021-03-01 --yes")
    (bench.folder / "t.csv").write_bytes(table(head, cells))
    before = len(readings(bench, what))
    code, out, _ = bench.run(f"import t.csv --batch {of} --yes --json")
    refused = {json.loads(x)["error"]["line"] for x in out.splitlines() if '"error"' in x}
    assert code == (1 if refused else 0), out
    rows = iter(readings(bench, what)[before:])
    found = [None if line in refused else next(rows) for line in range(2, len(cells) + 2)]
    assert next(rows, None) is None
    return found


def at_the_bench(bench, answers, what, of="PT-3"):
    """The same of sessions: each a list of answers."""
    bench.good(f"batch add {of} --volume 5L --on 2021-03-01 --yes")
    found = []
    for words in answers:
        before = len(readings(bench, what))
        text = "\n".join([f"when {WHEN}", *words, "done", "done", ""])
        bench.run(f"bench {of} --yes", text.encode())
        rows = readings(bench, what)
        found.append(rows[-1] if len(rows) > before else None)
    return found


def agree(typed, ways):
    """Every way gives what the first one does."""
    names = list(ways)
    for i, text in enumerate(typed):
        got = [ways[name][i] for name in names]
        assert all(x == got[0] for x in got), f"{text!r}: {dict(zip(names, got))}"
    assert sum(x is not None for x in ways[names[0]]) >= 10
    assert sum(x is None for x in ways[names[0]]) >= 5


def values(bench):
    """Readings of a hydrometer in specific gravity; other scales are refused everywhere."""
    begin(bench)
    # "60F" and "20C" alone are no scales: behind a reading they are temperatures, which temperatures() looks at.
    typed = [text for text, _ in forms("value") if not text.endswith((" 60F", " 20C"))]
    add = ["reading", "add", "PT-1", "--yes", "--on", WHEN, "--"]
    ways = {
        "argument": noted_one_by_one(bench, [[*add, t] for t in typed], "indication"),
        "import": imported(bench, ["date", "reading"], [[WHEN, t] for t in typed], "indication"),
        "bench": at_the_bench(bench, [[t, "-", "y"] for t in typed], "indication"),
    }
    agree(typed, ways)
    assert ways["argument"][typed.index("1,048")] == 1.048


def computed(bench):
    """What a stream computes is what each call does, or the same refusal."""
    begin(bench)
    for command, column, kind in (("correct", "reading", "value"), ("convert", "value", "value")):
        typed = [text for text, _ in forms(kind)]
        with_stem = ["--instrument", "stem-1"] if command == "correct" else []
        _, out, _ = bench.run([command, "--csv", "-", "--json", *with_stem],
                              table([column], [[t] for t in typed]))  # fmt: skip
        rows = [json.loads(x) for x in out.splitlines()]
        assert len(rows) == len(typed)
        same = 0
        for text, row in zip(typed, rows):
            code, out, err = bench.run([command, "--json", *with_stem, "--", text])
            alone = json.loads(out if code == 0 else err)
            if code != 0:
                assert row["error"]["message"] == alone["error"]["message"], (text, row, alone)
                continue
            for key in ("sg_20_20", "density_at_20_c_kg_m3", "density_at_t_kg_m3"):
                if key in alone and key in row:
                    assert row[key] == alone[key], (text, key)
                    same += 1
        assert same >= 20, (command, same)


def temperatures(bench):
    """A temperature behind its option, behind its reading, in a cell, as an answer."""
    begin(bench)
    typed = [text for text, _ in forms("temperature")]
    add = ["reading", "add", "PT-1", "1.020", "--yes", "--on", WHEN]
    celsius = "round(temperature_c, 9)"
    ways = {
        "option": noted_one_by_one(bench, [[*add, "--temp", t] for t in typed], celsius),
        "import": imported(bench, ["date", "reading", "temperature"],
                           [[WHEN, "1.020", t] for t in typed], celsius),
        "bench": at_the_bench(bench, [["1.020", t, "y"] for t in typed], celsius),
    }  # fmt: skip
    agree(typed, ways)
    # Behind a reading a word without a unit of temperature is something else.
    clear = [t for t, c in zip(typed, ways["option"]) if c is not None]
    known = [c for c in ways["option"] if c is not None]
    bench.good("batch add PT-4 --volume 5L --on 2021-03-01 --yes")
    behind = [["reading", "add", "PT-4", "1.020", *t.split(), "--yes", "--on", WHEN] for t in clear]
    before = len(readings(bench, celsius))
    for call in behind:
        bench.good(call)
    assert readings(bench, celsius)[before:] == known
    cells = [[WHEN, f"1.020 {t}"] for t in clear]
    assert imported(bench, ["date", "reading"], cells, celsius, "PT-5") == known
    assert at_the_bench(bench, [[f"1.020 {t}", "y"] for t in clear], celsius, "PT-6") == known
    _, out, _ = bench.run(["correct", "--csv", "-", "--json"], table(["reading"], [[c[1]] for c in cells]))
    for text, row in zip(clear, out.splitlines()):
        alone = json.loads(bench.good(["correct", "--json", "1.020", "--temp", text]))
        assert json.loads(row)["density_at_t_kg_m3"] == alone["density_at_t_kg_m3"], text


WORDS = re.compile(r"^\s*(today|yesterday|sat|sun|mon|tue|wed|thu|fri|\d+(:\d\d)?\s*[ap]\.?m|\d+:\d\d$)", re.I)


def dates(bench):
    """A date behind an option, in a table of its own, at the bench. Words are no dates in a table."""
    begin(bench)
    # A table of one row with its month first, between dots, has that order: order_of_a_table().
    typed = [text for text, _ in forms("date") if not WORDS.match(text) and text != "11.27.2021"]
    seconds = "made_at_s"
    add = ["reading", "add", "PT-1", "1.020", "--yes", "--on"]
    # What lies before a batch is doubted, and noted all the same.
    ways = {
        "option": noted_one_by_one(bench, [[*add, t] for t in typed], seconds),
        "import": [imported(bench, ["date", "reading"], [[t, "1.020"]], seconds, f"B-{i}")[0]
                   for i, t in enumerate(typed)],
        "bench": at_the_bench(bench, [[f"when {t}", "1.020", "-", "y"] for t in typed], seconds),
    }  # fmt: skip
    # At the bench a refused date leaves the one before it: nothing is noted at another day.
    noon = 1614938400  # WHEN
    ways["bench"] = [None if b == noon and a is None else b for a, b in zip(ways["option"], ways["bench"])]
    agree(typed, ways)
    for text in ("today", "yesterday 18:00", "mon", "18:00"):
        assert imported(bench, ["date", "reading"], [[text, "1.020"]], seconds, f"W-{text[:3]}") == [None]


def order_of_a_table(bench):
    """Any row of a table shows the order of all; without one the first unclear row is told."""
    begin(bench)
    for decides, month in (("27/11/2021", "11"), ("11/27/2021", "03")):
        name = f"O-{month}"
        rows = [["3/11/2021", "1.020"], ["4/11/2021", "1.019"], [decides, "1.018"]]
        assert None not in imported(bench, ["date", "SG"], rows, "made_at", name)
        first = readings(bench, "made_at")[-3]
        assert first.startswith("2021-11-03" if month == "11" else "2021-03-11"), first
    for extra, day in ((["--unit", "date=day-first"], "2021-11-03"),
                       (["--unit", "date=m/d/y"], "2021-03-11")):  # fmt: skip
        (bench.folder / "t.csv").write_bytes(table(["date", "SG"], [["3/11/2021", "1.020"]]))
        bench.good(f"batch add {extra[1][-3:].replace('/', '')} --on 2021-01-01 --yes")
        bench.good(["import", "t.csv", "--yes", "--batch", extra[1][-3:].replace("/", ""), *extra])
        assert readings(bench, "made_at")[-1].startswith(day)
    (bench.folder / "t.csv").write_bytes(
        table(["date", "SG"], [["2021-11-03", "1.021"], ["3/11/2021", "1.020"], ["4/11/2021", "1.019"]]))
    code, _, err = bench.run("import t.csv --batch PT-1 --yes")
    assert code == 1 and "in line 3" in err and "3 November or 11 March" in err, err
    assert readings(bench, "made_at")[-1].startswith("2021-11-03")


def printed_again(bench):
    """A line of convert, typed again, is the same liquid within what the printed digits allow."""
    again = 0
    for text in ("1.048", "12.5P", "6.5Be", "1048kg/m3", "48Oe", "1.003", "120 g/L", "1.0912"):
        for line in bench.good(["convert", text]).splitlines():
            found = re.fullmatch(r"  (\S.*?)  +(-?[\d.]+) ± [\d.]+ ?(.*)", line)
            if not found or found[1] in ("index n20", "potential alcohol"):
                continue
            typed = f"{found[2]} {found[3] or found[1]}"
            if found[1].startswith("Baumé"):
                typed = f"{found[2]} {found[1]}"
            was = json.loads(bench.good(["convert", text, "--json", "--to", "SG"]))["sg_20_20"]
            now = json.loads(bench.good(["convert", typed, "--json", "--to", "SG"]))["sg_20_20"]
            assert abs(was["value"] - now["value"]) <= now["expanded_uncertainty"], (text, typed)
            again += 1
    assert again >= 60, again


def told_again(bench):
    """What a reading is told as can be typed as a reading: with its temperature, in either unit."""
    begin(bench)
    for setting, typed in (("none", "21.5C"), ("F", "21.5C"), ("C", "70F"), ("F", "70F")):
        bench.good(f"settings temperature {setting}")
        bench.good(f"reading add PT-1 1.020 {typed} --yes --on {WHEN}")
        told = bench.good("batch show PT-1")
        found = re.findall(r"shows (1\.\d+ at [\d.]+ °[CF])", told) or re.findall(
            r"(1\.\d+ at [\d.]+ °[CF])", told)  # fmt: skip
        if not found:  # the list of one reading says it
            found = re.findall(r"shows (1\.\d+ at [\d.]+ °[CF])",
                               bench.good(f"reading add PT-1 1.020 {typed} --yes --on {WHEN}"))
        assert found, told
        before = readings(bench, "temperature_c")[-1]
        bench.good(["reading", "add", "PT-1", *found[-1].split(), "--yes", "--on", WHEN])
        after = readings(bench, "temperature_c")[-1]
        assert abs(before - after) <= 0.005, (found, before, after)


def settings_read(bench):
    """A bare temperature is in the unit that was set, everywhere, and is told so."""
    begin(bench)
    bench.good("settings temperature F")
    for call in (["reading", "add", "PT-1", "1.020", "73"], ["reading", "add", "PT-1", "1.020", "--temp", "73"]):
        code, out, err = bench.run([*call, "--yes", "--on", WHEN])
        assert code == 0 and "73 °F" in out + err, out + err
        assert abs(readings(bench, "temperature_c")[-1] - (73 - 32) / 1.8) < 1e-9
    _, out, err = bench.run(["correct", "1.020", "73"])
    assert "at 73 °F" in out and "read as 73 °F" in err, out + err
    assert imported(bench, ["date", "SG", "temp"], [[WHEN, "1.020", "73"]], "temperature_c")[0] > 22
    assert at_the_bench(bench, [["1.020 73", "y"], ["1.020", "73", "y"]], "round(temperature_c, 6)") == [
        round((73 - 32) / 1.8, 6)] * 2  # fmt: skip
    row = table(["reading", "temp"], [["1.020", "73"]])
    code, out, err = bench.run(["correct", "--csv", "-", "--json"], row)
    assert code == 0 and "°F" in err, out + err
    alone = json.loads(bench.good(["correct", "1.020", "73F", "--json"]))
    assert json.loads(out)["density_at_t_kg_m3"] == alone["density_at_t_kg_m3"]
    bench.good("settings temperature none")
    assert bench.run(["correct", "1.020", "--temp", "73"])[0] == 3
    # An export carries them.
    bench.good("settings volume US gal")
    bench.good("settings dates day first")
    bench.good("export whole.jsonl")
    bench.good(["--notebook", str(bench.folder / "new.db"), "import", "whole.jsonl"])
    bench.good("export --csv tables")
    bench.good(["--notebook", str(bench.folder / "csv.db"), "import", "tables"])
    for book in ("new.db", "csv.db"):
        kept = json.loads(bench.good(["--notebook", str(bench.folder / book), "settings", "--json"]))
        assert kept == {"temperature": None, "mass": None, "volume": "US gal", "pressure": None,
                        "dates": "day first"}, kept  # fmt: skip


def spreadsheets(bench):
    """Semicolons, tabs, a mark of byte order, decimal commas, quotes, units in heads: every stream."""
    rows = [["1,048", "73,4", 'a; "b", c'], ["1,050", "68", ""]]
    alone = [json.loads(bench.good(["correct", r[0], r[1] + "F", "--json"])) for r in rows]
    for separator in (";", "\t"):
        for mark in (b"", b"\xef\xbb\xbf"):
            for line_end in (b"\n", b"\r\n"):
                sheet = table(["SG", "Temp (°F)", "note"], rows, separator)
                sheet = mark + b"sep=;\n" * (separator == ";" and not mark) + sheet
                # Rows that nobody wrote in, and a column without a name.
                sheet += separator.join(["", "", ""]).encode() + b"\n"
                code, out, err = bench.run(["correct", "--csv", "-", "--json"],
                                           sheet.replace(b"\n", line_end))  # fmt: skip
                assert code == 0, out + err
                got = [json.loads(x)["density_at_t_kg_m3"] for x in out.splitlines()]
                assert got == [a["density_at_t_kg_m3"] for a in alone], (separator, got)
    for command, head, cells, key in (
        ("convert", ["Brix"], ["12,5"], "sg_20_20"),
        ("refract", ["Brix", "Temp (°C)"], ["12,4", "20"], "extract_percent"),
        ("alcohol", ["OG", "FG", "Temp (°C)"], ["1,048", "1,010", "20"], "alcohol_percent_vol"),
    ):
        code, out, err = bench.run([command, "--csv", "-", "--json"], table(head, [cells], ";"))
        assert code == 0 and json.loads(out)[key]["value"] > 0, out + err
    # A bad row is refused with its reason, the others come in.
    sheet = table(["SG", "Temp (°C)"], [["1,048", "20"], ["banana", "20"], ["1,050", "hot"], ["1,051", "20"]], ";")
    code, out, err = bench.run(["correct", "--csv", "-", "--json"], sheet)
    assert code == 1 and [("error" in json.loads(x)) for x in out.splitlines()] == [False, True, True, False]
    assert ":3: " in err and ":4: " in err, err


CHECKS = [values, computed, temperatures, dates, order_of_a_table, printed_again, told_again, settings_read,
          spreadsheets]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
