#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Cards and log sheets for the bench: their numbers, their words, and how they lie on paper.

  card.py --program PATH
  card.py --selftest       the checks must fail on a program that does everything wrong
"""

import csv
import json
import re
import subprocess
import sys

from hostile_names import NAMES, OBEYED
from report_page import Page
from robust import main

DAY = "--at 2026-06-01"
# Each kind of card: the instrument, what is done with it, and further options of the card.
OFFSET = """instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-01
calibrate fit stem-1 --due 2027-03-01"""
SLOPE = """instrument add stem-2 --scale SG60F --from 0.990 --to 1.170 --division 0.001 --on 2026-02-28
calibrate water stem-2 0.998 20C --on 2026-03-01
calibrate sugar stem-2 1.042 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-2 1.086 21C --solute 97g --water 403g --on 2026-03-01 --yes
calibrate fit stem-2 --due 2026-05-01"""
NEVER = "instrument add stem-3 --from 0.990 --to 1.100 --division 0.0005 --on 2026-02-28"
PLATO = """instrument add stem-4 --scale P --from 0 --to 25 --division 0.5 --on 2026-02-28
calibrate water stem-4 0.5 20C --on 2026-03-01
calibrate fit stem-4"""
DENSITY = """instrument add stem-5 --scale kg/m3 --from 990 --to 1100 --division 1 --on 2026-02-28
calibrate water stem-5 997.2 20C --on 2026-03-01
calibrate fit stem-5"""
RIGHT = """instrument add stem-6 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-6 1.000 20C --distilled --on 2026-03-01
calibrate fit stem-6"""
PRISM = """instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --on 2026-02-28
calibrate water prism-1 0.4 19C --on 2026-03-02
calibrate fit prism-1"""
COMPENSATED = """instrument add prism-2 --kind refractometer --from 0 --to 32 --division 0.2 --atc --on 2026-02-28
calibrate water prism-2 0.6 19C --on 2026-03-02
calibrate sugar prism-2 19.6 21C --solute 97g --water 403g --on 2026-03-02
calibrate fit prism-2"""
PROBE = """instrument add probe-1 --kind thermometer --on 2026-02-28
calibrate certificate probe-1 0C --correction -0.5 --expanded 0.1 --on 2026-03-01
calibrate certificate probe-1 100C --correction 1.5 --expanded 0.1 --on 2026-03-01
calibrate fit probe-1"""
HYDROMETERS = [("stem-1", OFFSET, ""), ("stem-2", SLOPE, "--coldest 50F --warmest 90F --step 2F"),
               ("stem-3", NEVER, ""), ("stem-4", PLATO, ""), ("stem-5", DENSITY, "--step 4C"),
               ("stem-6", RIGHT, "")]  # fmt: skip
OTHERS = [("prism-1", PRISM, ""), ("prism-2", COMPENSATED, ""), ("probe-1", PROBE, "")]

NUMBER = re.compile(r"-?\d+(\.\d+)?")
DPI = 144
PAPER_PT = {"A4": (595.3, 841.9), "Letter": (612, 792)}


def prepared(bench, *instruments):
    for _, steps, _ in instruments:
        for command in steps.splitlines():
            bench.good(command)


def cells(bench, name, more=""):
    """Rows of the card for programs; every number is one."""
    out = bench.good(f"table card {name} {DAY} {more} --csv")
    rows = list(csv.DictReader(line for line in out.splitlines() if not line.startswith("#")))
    assert len(rows) >= 5, out
    for row in rows:
        for key, cell in row.items():
            assert NUMBER.fullmatch(cell), (key, row)
    return rows


def reading(row):
    return next(value for key, value in row.items() if key.startswith("reading"))


def as_table_temperature_has_it(bench):
    """With alcohol, too; `correct` would need an original gravity that gives just this strength."""
    prepared(bench, HYDROMETERS[0])
    marks = "0.996,1.000,1.010,1.020"
    card = cells(bench, "stem-1", f"--alcohol 5 --readings {marks}")
    out = bench.good(f"table temperature --instrument stem-1 --alcohol 5 --readings {marks} "
                     "--coldest 10C --warmest 34C --step 2C --csv")  # fmt: skip
    table = list(csv.DictReader(line for line in out.splitlines() if not line.startswith("#")))
    assert len(card) == len(table) == 13 * 4
    dry = cells(bench, "stem-1", f"--readings {marks}")
    assert [r["correction"] for r in card] == [r["correction"] for r in table]
    assert [r["correction"] for r in card] != [r["correction"] for r in dry]


def signed(words):
    """The number that "SUBTRACT 0.0017", "ADD 0.5" or "ADD NOTHING" stands for."""
    found = re.match(r"(ADD|SUBTRACT) (NOTHING|\d+\.\d+)", words)
    assert found, words
    if found[2] == "NOTHING":
        assert found[1] == "ADD", words
        return "0"
    return ("-" if found[1] == "SUBTRACT" else "") + found[2]


def words_agree_with_numbers(bench):
    """What is written large, and its ±, is the row of the reference temperature: in one line for
    every reading, or in three where the correction or its ± is not the same everywhere."""
    prepared(bench, *HYDROMETERS, *OTHERS)
    for name, at, words, more in [
        ("stem-1", "20", 3, ""), ("stem-4", "20", 3, ""), ("stem-5", "20", 1, ""),
        ("stem-6", "20", 3, ""), ("stem-2", "60", 3, "--coldest 52F --warmest 68F --step 2F"),
        ("prism-1", "20", 3, ""), ("prism-1", "20", 3, "--extract malt"), ("prism-2", None, 3, ""),
        ("prism-2", None, 3, "--extract malt"), ("probe-1", None, 3, ""),
    ]:  # fmt: skip
        lines = bench.good(f"table card {name} {DAY} {more}").splitlines()
        assert lines[0] == name, lines
        said = [line for line in lines if re.match("(ADD|SUBTRACT) ", line)]
        assert len(said) == words, lines
        rows = [r for r in cells(bench, name, more) if at is None or at in (
            r.get("temperature_c"), r.get("temperature_f"))]  # fmt: skip
        for line in said:
            number = signed(line)
            stated = line if words == 3 else next(s for s in lines if s.startswith("± "))
            promised = float(re.search(r"± (\d+(\.\d+)?)", stated)[1])
            if words == 1:
                assert re.search(r" (from|to) every reading between .+ and .+ at 20 °C$|"
                                 r" at 20 °C, checked at .+ only$", line), line  # fmt: skip
                compared = rows
            else:
                place = float(re.search(r" at (\d+(\.\d+)?)", line)[1])
                compared = [r for r in rows if abs(float(reading(r)) - place) < 1e-9]
            assert compared, (line, rows)
            for row in compared:
                assert float(row["correction_U"]) <= promised, (name, more, row, promised)
                # Both are rounded, and not always to the same decimals.
                coarse = min(number, row["correction"], key=lambda n: len(n.partition(".")[2]))
                digit = 10 ** -len(coarse.partition(".")[2])
                if number == "0":
                    assert float(row["correction"]) == 0, (line, row)
                else:
                    assert abs(float(number) - float(row["correction"])) <= digit * 0.51 + 1e-12 * (
                        coarse == number), (line, row)  # fmt: skip
    assert "SUBTRACT" in bench.good(f"table card stem-1 {DAY}")
    assert "ADD NOTHING" in bench.good(f"table card stem-6 {DAY}")


def says_what_has_to_be_known(bench):
    prepared(bench, *HYDROMETERS, *OTHERS)
    known = {
        "stem-1": ["Checked 2026-03-01 in 3 checks", "in force from 2026-03-01",
                   "Check again: 2027-03-01", "throw the drink away", "not an accredited"],
        "stem-2": ["DUE FOR A CHECK since 2026-05-01", "Was due on 2026-05-01"],
        "stem-3": ["NEVER CHECKED", "no correction of its own"],
        "stem-4": ["Check again: ____", "°P"],
        "prism-1": ["no Brix", "areo refract", "areo table refractometer --instrument prism-1"],
        "prism-2": ["from 10 °C to 30 °C"],
        "probe-1": ["in 2 checks", "°C"],
    }  # fmt: skip
    for name, texts in known.items():
        for form in ("text", "markdown", "html"):
            out = bench.good(f"table card {name} {DAY} --format {form}").replace("\u00a0", " ")
            for text in texts:
                assert text in out.replace("\\_", "_"), (name, form, text)
            assert "card of 2026-06-01" in out and "areo 0." in out, (name, form)
            assert not re.search(r"\bsafe", out, re.I), (name, form)
    bench.good("instrument retire stem-1 --reason broke")
    code, out, err = bench.run("table card stem-1")
    assert code == 3 and not out and "retired" in err and "broke" in err, (code, out, err)


# --- on paper -------------------------------------------------------------------------------------
def tool(*words):
    done = subprocess.run(words, capture_output=True, timeout=120)
    assert done.returncode == 0, (words, done.stderr[:500])
    return done.stdout


class Sheet:
    """A PDF as poppler sees it."""

    def __init__(self, file, paper, landscape=False):
        info = tool("pdfinfo", file).decode()
        assert re.search(r"^Pages: +1$", info, re.M), info
        size = [float(x) for x in re.search(r"Page size: +([\d.]+) x ([\d.]+)", info).groups()]
        expected = PAPER_PT[paper][::-1] if landscape else PAPER_PT[paper]
        assert all(abs(a - b) < 1 for a, b in zip(size, expected)), (size, expected)
        self.width_pt, self.height_pt = size
        fonts = tool("pdffonts", file).decode().splitlines()[2:]
        assert fonts and all(line.split()[-5] == "yes" for line in fonts), fonts
        self.text = re.sub(r"\s+", " ", tool("pdftotext", "-layout", file, "-").decode())
        box = r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>'
        self.words = [(*map(float, w[:4]), w[4])
                      for w in re.findall(box, tool("pdftotext", "-bbox", file, "-").decode())]  # fmt: skip
        self.pixels(tool("pdftoppm", "-r", str(DPI), file))

    def pixels(self, ppm):
        """Black ink on white paper has no colour in any of them."""
        kind, size, depth, data = ppm.split(b"\n", 3)
        assert kind == b"P6" and depth == b"255"
        width, height = map(int, size.split())
        assert len(data) == 3 * width * height
        self.grey = [data[3 * width * y : 3 * width * (y + 1) : 3] for y in range(height)]
        assert data[0::3] == data[1::3] == data[2::3], "it is coloured"
        white, black = (sum(row.count(grey) for row in self.grey) for grey in (255, 0))
        assert white > 0.75 * width * height and black > 0.01 * width * height, (white, black)
        # What is neither is the edge of a letter, for want of pixels.
        assert width * height - white - black < 0.12 * width * height, "it is grey"
        edge = DPI // 6  # 4.2 mm, which a printer leaves white
        for row in [*self.grey[:edge], *self.grey[-edge:]]:
            assert set(row) == {255}, "it is printed up to the edge, or not on white"
        for row in self.grey:
            assert set(row[:edge] + row[-edge:]) == {255}, "a row is wider than the sheet"
        inked = [y for y, row in enumerate(self.grey) if min(row) < 128]
        self.filled = inked[-1] / height

    def type_pt(self, pattern):
        """The smallest type among the words that match: a box is the height of the font, which for
        DejaVu Sans is 1.164 of its size."""
        heights = [w[3] - w[1] for w in self.words if re.fullmatch(pattern, w[4])]
        assert heights, (pattern, self.text)
        return min(heights) / 1.164


# Print for people who see badly is 14 pt and more, large print 18 pt (common practice, no source); a
# card is read from a step away, with the jar in hand.
HEADLINE_PT, NUMBERS_PT, SMALL_PT = 18, 14, 6


def one_sheet_of_paper(bench):
    prepared(bench, *HYDROMETERS, *OTHERS)
    more_of = {name: more for name, _, more in HYDROMETERS}
    for paper in PAPER_PT:
        for name, word in [("stem-1", "SUBTRACT"), ("stem-2", "SUBTRACT"), ("stem-3", "NEVER"),
                           ("prism-1", "SUBTRACT"), ("prism-2", "ADD|SUBTRACT"),
                           ("probe-1", "ADD|SUBTRACT")]:  # fmt: skip
            if paper == "Letter" and name not in ("stem-1", "stem-2", "prism-1"):
                continue  # each takes its seconds
            more = "--coldest 10C --warmest 34C" if name == "stem-2" else more_of.get(name, "")
            bench.good(f"table card {name} {DAY} {more} --paper {paper} --out card.pdf")
            sheet = Sheet(bench.folder / "card.pdf", paper)
            for text in (name, "Caution", "card of 2026-06-01", "areo 0.", "throw the drink away"
                         if "prism" not in name else "areo refract"):  # fmt: skip
                assert text in sheet.text, (name, text, sheet.text)
            assert not re.search(r"\bsafe", sheet.text, re.I)
            assert sheet.type_pt(word) >= HEADLINE_PT, (name, paper, sheet.type_pt(word))
            numbers = sheet.type_pt(r"[-+]\d+\.\d+")
            assert numbers >= NUMBERS_PT, (name, paper, numbers)
            assert sheet.type_pt(".+") >= SMALL_PT, (name, paper, sheet.type_pt(".+"))
            assert sheet.filled > 0.85, (name, paper, sheet.filled)
            # All rows are there, and as in the table for programs.
            for row in cells(bench, name, more):
                assert re.search(rf"[+ ]?{re.escape(row['correction'])}\b", sheet.text), (name, row)


def many_rows_make_small_type_or_none(bench):
    prepared(bench, HYDROMETERS[0])
    bench.good(f"table card stem-1 {DAY} --step 1C --warmest 35C --out card.pdf")
    numbers = Sheet(bench.folder / "card.pdf", "A4").type_pt(r"[-+]\d+\.\d+")
    assert 9 < numbers, numbers
    (bench.folder / "card.pdf").unlink()
    for more, why in [("--step 0.2C", "does not fit on one sheet"),
                      ("--readings " + ",".join(f"1.0{i:02}" for i in range(0, 100, 5)),
                       "wider than a sheet")]:  # fmt: skip
        code, out, err = bench.run(f"table card stem-1 {DAY} {more} --out card.pdf")
        assert code == 3 and not out and why in err, (code, out, err)
        assert not list(bench.folder.glob("card.pdf*")), "no half a card"
        assert len(bench.good(f"table card stem-1 {DAY} {more}").splitlines()) > 20


def does_without_weasyprint(bench):
    prepared(bench, HYDROMETERS[0])
    bench.environment["PATH"] = "/nonexistent"
    for command in (f"table card stem-1 {DAY}", "table log"):
        code, out, err = bench.run(f"{command} --out x.pdf")
        assert code == 4 and not out and "weasyprint" in err, (code, out, err)
        assert not list(bench.folder.glob("x.pdf*"))
        bench.good(f"{command} --out x.html")


def shows_any_name_as_text(bench):
    for name in NAMES:
        bench.good(["instrument", "add", "--on", "2026-02-28", "--", name])
        text = name.decode(errors="replace")
        for form in ("text", "csv", "markdown", "html"):
            out = bench.good(["table", "card", *DAY.split(), "--step", "12C", "--format", form, "--", name])
            assert not OBEYED.search(out.encode()), (name[:40], form)
            if form == "html":
                page = Page(out)
                assert not page.tags & {"script", "b", "a"}, (name[:40], page.tags)
                if text.isprintable() and "\ufffd" not in text:
                    assert page.texts["h1"] == [text], (text[:40], page.texts["h1"][0][:40])
        code, _, _ = bench.run(["table", "card", "--json", "--", name])
        assert code == 0, name[:40]


# --- the log --------------------------------------------------------------------------------------
BATCH = """batch add PT-1 --drink pear --vessel jar --volume 5L --on 2026-03-02
reading add PT-1 1.048 --temp 21C --original --instrument stem-1 --on 2026-03-02T10:00"""
HEADS = ["date", "time", "shows", "temperature", "instrument", "bubbles", "added", "note",
         "who"]  # fmt: skip


def runs(line):
    """Where it is dark, as (first, last) along a row or column of pixels."""
    found = []
    for i, grey in enumerate(line):
        if grey < 160:
            if found and found[-1][1] == i - 1:
                found[-1][1] = i
            else:
                found.append([i, i])
    return found


def boxes_for_a_pen(bench):
    prepared(bench, HYDROMETERS[0])
    for command in BATCH.splitlines():
        bench.good(command)
    for paper, command, head in [("A4", "table log", "Batch ____"),
                                 ("Letter", "table log --batch PT-1", "Batch PT-1")]:  # fmt: skip
        bench.good(f"{command} --paper {paper} --out log.pdf")
        sheet = Sheet(bench.folder / "log.pdf", paper, landscape=True)
        assert head in sheet.text, (command, sheet.text)
        words = [w[4] for w in sheet.words]
        for word in HEADS:
            assert word in words, (command, word, words)
        # Down through the notes, below their heading, there are only lines between boxes.
        x, _, _, top, _ = [w for w in sheet.words if w[4] == "note"][-1]
        x, top = (int(v * DPI / 72) for v in (x, top))
        column = bytes(row[x + DPI // 2] for row in sheet.grey[top:])
        lines = [a for a, _ in runs(column)]
        heights = [(b - a) * 25.4 / DPI for a, b in zip(lines, lines[1:])]
        least, most = 9 - 0.18, 9.5 + 0.18  # 9 mm and a line, seen to a pixel
        boxes = [h for h in heights if least <= h <= most]
        assert len(boxes) == len(lines) - 1 >= 13, (paper, command, heights)
        # Across a row: nine columns between ten lines.
        row = sheet.grey[top + lines[2] + DPI // 10]
        assert len(runs(row)) == 10, (command, runs(row))
        # As many as fill the sheet: there is no room for another one.
        bench.good(f"{command} --paper {paper} --rows {len(boxes) + 1} --out more.pdf")
        info = tool("pdfinfo", bench.folder / "more.pdf").decode()
        assert re.search(r"^Pages: +2$", info, re.M), info
    assert "pear" in sheet.text and "5L" in sheet.text and "SUBTRACT 0.0020" in sheet.text
    assert re.search(r"original gravity 1\.04\d+ ± 0\.\d+", sheet.text), sheet.text


def a_filled_in_sheet_comes_back(bench):
    prepared(bench, HYDROMETERS[0])
    bench.good("batch add PT-1 --on 2026-03-02")
    blank = bench.good("table log --batch PT-1 --rows 5 --csv").splitlines()
    head = next(i for i, line in enumerate(blank) if not line.startswith("#"))
    names = blank[head].split(",")
    assert len(blank) == head + 6 and all(set(line) == {","} for line in blank[head + 1 :]), blank
    for row, filled in [(1, {"date": "2026-03-05", "time": "18:30", "reading": "1.030",
                             "temperature": "21C", "instrument": "stem-1", "degassed": "no",
                             "note": "fizzy, a little", "person": "K"}),
                        (3, {"date": "2026-03-06", "reading": "1.021", "temperature": "70F"})]:  # fmt: skip
        assert set(filled) <= set(names), names
        blank[head + row] = ",".join(f'"{filled.get(n, "")}"' for n in names)
    (bench.folder / "log.csv").write_text("\n".join(blank) + "\n", encoding="utf-8")
    out = bench.good("import log.csv --batch PT-1 --instrument stem-1")
    assert out.startswith("2 noted, 0 there already, 0 refused") and "left out" not in out, out
    noted = [json.loads(line) for line in bench.good("reading list PT-1 --json").splitlines()]
    assert [(r["typed"], r["temperature_typed"], r["person"], r["note"]) for r in noted] == [
        ("1.030", "21C", "K", "fizzy, a little"), ("1.021", "70F", "", "")], noted  # fmt: skip
    assert noted[0]["made_at"].startswith("2026-03-05T18:30"), noted


CHECKS = [as_table_temperature_has_it, words_agree_with_numbers, says_what_has_to_be_known,
          one_sheet_of_paper, many_rows_make_small_type_or_none, does_without_weasyprint,
          shows_any_name_as_text, boxes_for_a_pen, a_filled_in_sheet_comes_back]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
