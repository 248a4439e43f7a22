#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Certificates of `areo certificate`: every item asked for, one set of numbers in all formats.

  certificate.py --program PATH
  certificate.py --selftest       the checks must fail on a program that does everything wrong

How a page looks in a browser is for tests/browser.
"""

import csv
import html.parser
import json
import math
import os
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

from hostile_names import NAMES, OBEYED, option, raw
from robust import main

TABLES = Path(__file__).resolve().parents[2] / "tables"
NOT_ACCREDITED = "a user's own check; not an accredited certificate."
CLAUSES = ([f"7.8.2.1 {x}" for x in "abcdefghijklmnop"] + ["7.8.2.2"]
           + [f"7.8.4.1 {x}" for x in "abcdef"] + ["7.8.4.3", "7.8.6.1", "7.8.6.2", "7.8.7"])  # fmt: skip
WORDS = {"stated": "in", "in_part": "in part, in", "by_hand": "to be written by hand, in",
         "does_not_apply": "does not apply"}  # fmt: skip
STEM = "instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28"
THREE = f"""{STEM}
calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z
calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --on 2026-03-01T10:20Z
calibrate sugar stem-1 1.083 21C --solute 100g --water 400g --on 2026-03-01T10:40Z
calibrate fit stem-1"""
WATER = f"""{STEM}
calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z
calibrate fit stem-1"""
LINE = f"""{STEM.replace("stem-1", "stem-2")}
calibrate water stem-2 1.000 20C --on 2026-03-01T10:00Z
calibrate salt stem-2 1.048 21C --solute 31g --water 469g --balance 0.1g --on 2026-03-01T10:20Z
calibrate fit stem-2"""
PRISM = """instrument add prism-1 --kind refractometer --on 2026-02-28
calibrate water prism-1 0.4 19C --on 2026-03-01T10:00Z
calibrate sugar prism-1 10.4 20C --solute 50g --water 450g --balance 0.1g --on 2026-03-01T10:20Z
calibrate fit prism-1"""
PROBE = """instrument add probe-1 --kind thermometer --division 1C --on 2026-02-01
calibrate ice probe-1 0.5C --on 2026-02-28T10:00Z
calibrate boiling probe-1 99.0C --altitude 300m --on 2026-02-28T10:30Z
calibrate fit probe-1"""
AGAIN = """calibrate water stem-1 1.003 21C --on 2026-04-01T10:00Z
calibrate sugar stem-1 1.044 21C --solute 52g --water 448g --on 2026-04-01T10:20Z
calibrate fit stem-1 --since 2026-04-01"""
STATED = f"""{STEM} --maker Pear --serial 17 --made-for 55mN/m --stem 4.5mm --mass 30g --note clean
calibrate water stem-1 1.001 21C --distilled --on 2026-03-01T10:00Z
calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --tap --balance-name kitchen-2 --on 2026-03-01T10:20Z
calibrate sugar stem-1 1.083 21C --solute 100g --water 400g --balance-name kitchen-2 --on 2026-03-01T10:40Z
calibrate fit stem-1"""
INSTRUMENTS = {"stem-1": THREE, "stem-2": LINE, "prism-1": PRISM, "probe-1": PROBE}


class Page(html.parser.HTMLParser):
    """Text, tables by their captions, and what else is on a page; of pictures, how many."""

    def __init__(self, page):
        super().__init__()
        self.tables, self.headings, self.tags = {}, [], Counter()
        page, self.pictures = re.subn("<svg.*?</svg>", "", page, flags=re.S)
        self.paragraphs, self.words = [], []
        self.open, self.rows, self.caption, self.text = [], [], "", ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        if tag == "br":  # a unit on a line of its own
            return
        if tag != "meta":
            self.open.append(tag)
        if tag == "table":
            self.rows = []
        elif tag == "tr":
            self.rows.append([])
        self.text = ""

    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag
        if tag in ("td", "th"):
            self.rows[-1].append(self.text.replace("\xa0", " "))
        elif tag == "caption":
            self.caption = self.text
        elif tag == "table":
            assert self.caption not in self.tables, self.caption
            self.tables[self.caption] = self.rows
        elif tag == "h2":
            self.headings.append(self.text)
        elif tag == "p":
            self.paragraphs.append(self.text)

    def handle_data(self, data):
        self.text += data
        if self.open and self.open[-1] not in ("style", "title", "figcaption"):
            self.words += data.split()

    def table(self, caption):
        """The rows below the head of the table whose caption begins so."""
        (found,) = [rows for title, rows in self.tables.items() if title.startswith(caption)]
        head, *rows = found
        assert rows and all(len(r) == len(head) for r in rows), found
        return [dict(zip(head, r)) for r in rows]


def prepared(bench, *steps):
    for command in "\n".join(steps).splitlines():
        bench.good(command)


def file_of(bench, command, name):
    bench.good(f"{command} --out {name}")
    assert (bench.folder / name).exists(), f"there is no {name}"
    return (bench.folder / name).read_text(encoding="utf-8")


def page_of(bench, command):
    return Page(file_of(bench, command, "page.html"))


def json_of(bench, command):
    return json.loads(bench.good(f"{command} --json"))


def same(printed, value):
    """A printed number is the value, rounded to its last digit."""
    digits = len(printed.partition(".")[2])
    assert abs(float(printed) - value) <= 0.5001 * 10.0**-digits, (printed, value)


def column(row, begin):
    (key,) = [k for k in row if k.startswith(begin)]
    return row[key]


def every_item_of_the_clause(bench):
    prepared(bench, THREE, AGAIN, PROBE)
    for command in ("certificate stem-1", "certificate stem-1 --calibration 1",
                    "certificate probe-1", "certificate stem-1 --by B --place P --for C"):  # fmt: skip
        page = page_of(bench, command)
        rows = page.table("What the standard asks")
        assert [r["item"] for r in rows] == CLAUSES, [r["item"] for r in rows]
        numbers = {h.split()[0] for h in page.headings}
        assert numbers == {str(i) for i in range(1, 12)}, numbers
        for row in rows:
            assert len(row["asks for"]) > 5, row
            status, _, where = row["here"].partition(": ")
            assert status in WORDS.values(), row
            assert where and ("; not stated: " in where) is (status == WORDS["in_part"]), row
            if status != "does not apply":
                named = re.findall(r"\d+", where.split("; not stated: ")[0])
                assert set(named) <= numbers and (named or "line" in where), row
        by_hand = [r["item"] for r in rows if r["here"].startswith("to be written")]
        expected = [] if "--by" in command else [f"7.8.2.1 {x}" for x in "bceo"]
        assert by_hand == expected, by_hand
        told = json_of(bench, command)["clauses"]
        assert [(c["item"], f"{WORDS[c['status']]}: {c['where_or_why']}") for c in told] == [
            (r["item"], r["here"]) for r in rows]  # fmt: skip
    before = {r["item"]: r["here"] for r in page_of(bench, "certificate stem-1").table("What the st")}
    first = {r["item"]: r["here"] for r in
             page_of(bench, "certificate stem-1 --calibration 1").table("What the st")}  # fmt: skip
    assert before["7.8.4.1 d"].startswith("in: ") and first["7.8.4.1 d"].startswith("does not")


def here(bench, command="certificate stem-1"):
    """Item by item: what is not stated, or None if there is nothing of the kind."""
    told = json_of(bench, command)["clauses"]
    return {c["item"].removeprefix("7.8."): c["where_or_why"].partition("; not stated: ")[2]
            for c in told if c["status"] == "in_part"}  # fmt: skip


def clauses_follow_what_is_there(bench):
    prepared(bench, THREE, PRISM, PROBE)
    balance = "balance of checks 2 and 3"
    thermometer = "thermometer of checks 1 and 2 and 3"
    bare = {"2.1 g": "maker, serial number, condition", "2.2": "who answers for it",
            "4.1 b": "kind of water of checks 1 and 2 and 3",
            "4.1 c": f"{thermometer}, {balance}"}  # fmt: skip
    assert here(bench) == bare, here(bench)
    with_name = here(bench, "certificate stem-1 --by Pear")
    assert with_name["2.1 b"] == "where, the address" and "2.2" not in with_name, with_name
    named = here(bench, "certificate stem-1 --by Pear --place Kitchen")
    assert set(named) == {"2.1 g", "4.1 b", "4.1 c"}, named
    assert set(here(bench, "certificate probe-1")) == {"2.1 g", "2.2"}
    bench.notebook.unlink()
    prepared(bench, STATED.replace("1.001 21C", "1.001").replace("1.083 21C", "1.083"))
    assert here(bench, "certificate stem-1 --by Pear") == {
        "2.1 b": "where, the address", "4.1 c": "thermometer of check 2",
        "4.1 b": "temperature of checks 1 and 3, kind of water of check 3"}  # fmt: skip
    bench.notebook.unlink()
    point = "calibrate certificate stem-1 1.040 --correction=0.0005 --expanded 0.0004"
    for note, missing in (("", {"2.1 p"}), (" --note L-17", set())):
        prepared(bench, STEM, point + note, "calibrate fit stem-1")
        found = here(bench)
        assert set(found) == {"2.1 f", "2.1 g", "2.1 i", "2.2", "4.1 b"} | missing, found
        bench.notebook.unlink()
    prepared(bench, THREE, "calibrate fit stem-1 --without 1 --from 2026-03-02")
    prepared(bench, "calibrate fit stem-1 --without 2 --from 2026-03-03 --note spilt")
    assert "2.1 n" not in here(bench, "certificate stem-1 --calibration 3")
    assert "2.1 n" not in here(bench, "certificate stem-1 --calibration 1")


def rounded(value, like):
    return f"{value:.{len(like.partition('.')[2])}f}"


def headlines_say_where_it_was_checked(bench):
    prepared(bench, *INSTRUMENTS.values())
    flat = STEM.replace("stem-1", "flat")
    for mark in ("1.000", "1.080"):
        flat += f"\ncalibrate certificate flat {mark} --correction=-0.001 --expanded 0.001 --apart"
    prepared(bench, flat, "calibrate fit flat", WATER.replace("stem-1", "one").replace("1.001", "1.0005"))
    two = WATER.replace("stem-1", "two").splitlines()
    prepared(bench, *two[:2], two[1].replace("1.001", "1.000").replace("T10", "T11"), two[2])
    words = {name: json_of(bench, f"certificate {name}")["instruction"]
             for name in (*INSTRUMENTS, "flat", "one", "two")}  # fmt: skip
    assert words["flat"] == "SUBTRACT 0.00100 from every reading between 1.000 and 1.080", words
    assert re.fullmatch(r"SUBTRACT 0\.0\d+, checked at 1\.0005 only", words["one"]), words
    assert re.fullmatch(r"SUBTRACT 0\.0\d+, checked from 1\.000 to 1\.001 only", words["two"]), words
    ends = r"(\w+ [\w.]+)(?: Brix| °C)? at (\S+)(?: Brix| °C)?"
    for name in (*INSTRUMENTS, "flat"):
        fit = json_of(bench, f"certificate {name}")
        low, high = fit["checked_from"], fit["checked_to"]
        found = re.fullmatch(rf"{ends}, {ends}, in between in proportion", words[name])
        one = re.fullmatch(r"(\w+ [\w.]+).* (?:from|to) every reading between (\S+)(?: .*)? and (\S+)"
                           r"(?: Brix| °C)?", words[name])  # fmt: skip
        assert (found is None) is not (one is None), words[name]
        said = [found[1], found[3]] if found else [one[1], one[1]]
        assert [float(x) for x in (found or one).group(2, 4 if found else 3)] == [low, high], words
        assert (said[0] != said[1]) is (found is not None), words[name]
        for place, text in zip((low, high), said):
            word, number = text.split()
            value = fit["offset"] + fit["slope"] * (place - fit["r0"])
            if number == "NOTHING":
                continue
            assert (value > 0) is (word == "ADD"), (name, text, value)
            assert number == rounded(abs(value), number), (name, text, value)
    for name, text in words.items():
        assert bench.good(f"calibrate show {name}").splitlines()[0].startswith(f"{name}: {text}"), name
        assert text in bench.good(f"certificate {name}").splitlines(), name
    for name, text in (("flat", "between 1.000 and 1.080 at 20 °C"),
                       ("one --readings 1.000", "at 20 °C, checked at 1.0005 only")):  # fmt: skip
        assert text in bench.good(f"table card {name}"), name


def in_words(bench, command):
    return " ".join(bench.good(command).split())


def says_what_is_assumed(bench):
    prepared(bench, *INSTRUMENTS.values())
    text = in_words(bench, "certificate stem-1")
    for said in ("that it runs as a straight line between the checks is assumed",
                 "runs as a straight line between the checks is assumed; no check shows it",
                 "and so is no larger there, is assumed; no check shows it",
                 "in this range, if the error runs straight between its checks"):  # fmt: skip
        assert said in text, said
    assert "if the error runs straight" in bench.good("calibrate show stem-1")
    for name in INSTRUMENTS:
        assert "tolerance" not in in_words(bench, f"certificate {name}"), name
        assert "tolerance" not in bench.good(f"calibrate show {name}"), name
        assert "maximum permissible error" in in_words(bench, f"certificate {name}"), name
    prepared(bench, WATER.replace("stem-1", "one"))
    text = in_words(bench, "certificate one")
    assert "It was checked at one place of the scale." in text
    assert "nothing is said of any other" in text and "straight line between the checks is assumed; no" not in text


def names_the_method(bench):
    prepared(bench, *INSTRUMENTS.values(), STATED.replace("stem-1", "stem-9"))
    text = in_words(bench, "certificate stem-1")
    for said in ("surface tension: the surface of a liquid pulls a stem down", "in a result it cancels",
                 "or a water that nobody named, in checks 1, 2, 3: 0 to 0.6 g/L", "its linearity is taken as within one division",
                 "cancels in their ratio"):  # fmt: skip
        assert said in text, said
    text = in_words(bench, "certificate stem-9")
    assert re.search(r"nobody named, in checks \d+, \d+: ", text), "not the one in distilled water"
    prism = in_words(bench, "certificate prism-1")
    assert "pulls a stem" not in prism and "nobody named, in checks" in prism
    probe = json_of(bench, "certificate probe-1")["inputs"]
    (kettle,) = [i for i in probe if i["name"] == "superheat of the water and emergent stem"]
    same("0.1155", kettle["input_standard_uncertainty"])
    assert kettle["distribution"] == "rectangular" and kettle["provenance"] == "judgement"
    for apart, said in (("", "its points count as fully correlated"), (" --apart", "nothing in common")):
        name = f"stem-c{len(apart)}"
        prepared(bench, STEM.replace("stem-1", name))
        for mark in ("1.000", "1.080"):
            bench.good(f"calibrate certificate {name} {mark} --correction=0.0005 --expanded 0.0004{apart}")
        bench.good(f"calibrate fit {name}")
        text = in_words(bench, f"certificate {name}")
        assert said in text and (not apart or "fully correlated" not in text), (apart, text)
        assert {c["apart"] for c in json_of(bench, f"certificate {name}")["checks"]} == {bool(apart)}


def tells_what_was_stated(bench):
    prepared(bench, STATED, THREE.replace("stem-1", "stem-2"))
    stated, bare = (page_of(bench, f"certificate stem-{n}") for n in (1, 2))
    about = {r["item"]: r["value"] for r in stated.table("What was calibrated")}
    assert about["maker"] == "Pear" and about["serial number"] == "17", about
    assert about["condition and notes"] == "clean", about
    usual = {r["item"]: r["value"] for r in bare.table("What was calibrated")}
    for item in ("maker", "serial number", "condition and notes"):
        assert usual[item].endswith(": " + "_" * 30), usual
    for item, value in (("scale made for a liquid of surface tension", "55 mN/m ± 2 mN/m"),
                        ("diameter of the stem", "4.5 mm ± 0.2 mm"), ("mass", "30 g ± 0.5 g")):  # fmt: skip
        assert about[item] == f"{value}, as stated by the owner", about
        assert "not stated, taken as usual" in usual[item], usual
    rows = stated.table("The liquids of the checks")
    assert [r["water"].split()[0] for r in rows] == ["pure,", "tap", "not"], rows
    assert [r["balance"] for r in rows] == ["", "kitchen-2", "kitchen-2"], rows
    assert [r["its division, g"] for r in rows] == ["", "1", "1"], rows
    rows = bare.table("The liquids of the checks")
    assert {r["water"] for r in rows} == {"not stated: taken as pure, with a doubt"}, rows
    assert all("____" in r["balance"] for r in rows[1:]), rows
    told = json_of(bench, "certificate stem-1")
    assert [told[k] for k in ("maker", "serial", "condition", "made_for_mn_m", "stem_diameter_mm",
                              "mass_g")] == ["Pear", "17", "clean", 55, 4.5, 30], told  # fmt: skip
    assert [(c["water"], c["balance"], c["balance_division_g"]) for c in told["checks"]] == [
        ("pure", None, None), ("tap", "kitchen-2", 1), (None, "kitchen-2", 1)]  # fmt: skip
    told = json_of(bench, "certificate stem-2")
    assert all(told[k] is None for k in ("maker", "serial", "made_for_mn_m", "mass_g")), told


def sources_are_marked(bench):
    notes = {}
    for entry in (TABLES / "sources.bib").read_text(encoding="utf-8").split("\n@")[1:]:
        note = re.search(r"^  note +=\s*\{(.*?)\}\s*\}?\s*$", entry, re.M | re.S)
        notes[re.match(r"\w+\{([^,]+),", entry)[1]] = " ".join(note[1].split()) if note else ""
    assert len(notes) > 40 and "title from memory" in notes["tanaka2001"], notes
    prepared(bench, *INSTRUMENTS.values(), PRISM.replace("prism-1", "prism-2"),
             THREE.replace("stem-1", "salty").replace("sugar", "salt").replace("100g", "60g").replace("52g", "31g"))  # fmt: skip
    marked = set()
    for name in (*INSTRUMENTS, "salty"):
        page = page_of(bench, f"certificate {name}")
        rows = {r["key"]: r for r in page.table("Sources named")}
        cited = set(re.findall(r"\[([a-z][a-z0-9-]{2,})\]", " ".join(page.words)))
        assert set(rows) == cited and len(cited) > 5, (name, set(rows) ^ cited)
        for key, row in rows.items():
            memory = row["from memory"]
            assert memory in notes[key], (row, notes[key])
            assert bool(memory) is ("from memory" in notes[key]), (row, notes[key])
            marked |= {key} if memory else set()
    assert {"tanaka2001", "sps4", "itct1936", "if97", "laliberte2009"} <= marked, marked


def unescaped(cell):
    return re.sub(r"\\(.)", r"\1", cell)


def markdown_tables(text):
    tables, rows = [], []
    for line in [*text.splitlines(), ""]:
        if line.startswith("|"):
            rows.append([unescaped(c.strip()) for c in re.split(r"(?<!\\)\|", line)[1:-1]])
        elif rows:
            assert len(rows) > 2 and set(rows[1]) == {"---"}, rows[:2]
            assert len({len(r) for r in rows}) == 1, rows
            tables.append([rows[0], *rows[2:]])
            rows = []
    return tables


def formats_tell_the_same(bench):
    bench.environment["COLUMNS"] = "80"  # as in a file
    prepared(bench, *INSTRUMENTS.values(), AGAIN)
    for name in INSTRUMENTS:
        page = page_of(bench, f"certificate {name}")
        text, markdown = (file_of(bench, f"certificate {name}", f"x.{end}") for end in ("txt", "md"))
        assert text == bench.good(f"certificate {name}"), name
        assert markdown == bench.good(f"certificate {name} --format markdown"), name
        tables = markdown_tables(markdown)
        assert tables == list(page.tables.values()), (name, tables)
        # Word for word, but for the lines below headings and the marks of lists.
        words = Counter(w for w in text.split() if set(w) != {"-"})
        marks = Counter(w for w in page.words if set(w) != {"-"})
        assert words == marks, (name, words - marks, marks - words)
        assert text.count(NOT_ACCREDITED) == markdown.count(NOT_ACCREDITED) == 2
        assert page.paragraphs.count(NOT_ACCREDITED) == 2, page.paragraphs
        assert "safe" not in text.lower()
        assert max(map(len, text.splitlines())) <= 100, name


def json_has_the_printed_numbers(bench):
    prepared(bench, *INSTRUMENTS.values(), AGAIN)
    for name in INSTRUMENTS:
        page, told = page_of(bench, f"certificate {name}"), json_of(bench, f"certificate {name}")
        assert told["accredited"] is False
        rows = page.table("U is the expanded")
        assert len(rows) == len(told["checks"]) >= 2, rows
        for row, check in zip(rows, told["checks"]):
            assert row["check"] == str(check["check"])
            for begin, key in [("showed", "indication"), ("should", "expected"),
                               ("add", "correction"), ("U of it", "expanded_uncertainty"),
                               ("off", "residual")]:  # fmt: skip
                same(column(row, begin), check[key])
        rows = page.table("U is for about 95 %")
        assert len(rows) == len(told["corrections"]) > 4
        for row, mark in zip(rows, told["corrections"]):
            for begin, key in [("shown", "indication"), ("add", "correction"),
                               ("U of it", "expanded_uncertainty")]:  # fmt: skip
                same(column(row, begin), mark[key])
            assert (row["there the scale is"] == "within the checked range") is mark["checked"]
        rows = page.table("What the verdict rests on")
        for row, point in zip(rows, told["conformity_points"], strict=True):
            for begin, key in [("shown", "indication"), ("error", "error"), ("size less", "least"),
                               ("size plus", "most"), ("U,", "expanded_uncertainty")]:  # fmt: skip
                same(column(row, begin), point[key])


def budgets_add_up(bench):
    prepared(bench, *INSTRUMENTS.values())
    for name in INSTRUMENTS:
        page, told = page_of(bench, f"certificate {name}"), json_of(bench, f"certificate {name}")
        rows = page.table("Budget of the correction")
        inputs = page.table("Inputs, the largest")
        assert [r["input"] for r in inputs] == [r["contribution of"] for r in rows[: len(inputs)]]
        for k, at in enumerate(told["budgets"]):
            squares = sum(i["shares"][k] ** 2 for i in told["inputs"])
            squares += at["slope_share"] ** 2 + at["beyond_share"] ** 2
            u = at["standard_uncertainty"]
            assert abs(math.sqrt(squares) - u) <= 1e-9 * u, (name, k)
            cells = [list(r.values())[3 + k] for r in rows]
            total, expanded = float(cells[-2]), float(cells[-1])
            assert abs(math.hypot(*map(float, cells[:-2])) - total) <= 0.02 * total, (name, cells)
            half = 0.5 * 10 ** -len(cells[-1].partition(".")[2])  # of the last digit, in both
            assert abs(1.96 * total - expanded) <= 2.96 * half, (name, cells)
            same(cells[-2], u)
        for check in told["checks"]:
            squares = sum(s["share"] ** 2 for i in told["inputs"] for s in i["of_checks"]
                          if s["check"] == check["check"])  # fmt: skip
            u = check["standard_uncertainty"]
            assert abs(math.sqrt(squares) - u) <= 1e-6 * u, (name, check)
    shared = {r["input"]: r["in checks"] for r in page_of(bench, "certificate stem-1").table("Inputs")}
    assert shared["purity of the sugar"] == "2, 3", shared
    assert shared["stem-1: expansion of the glass"] == "1, 2, 3", shared


def corrections_are_those_applied(bench):
    prepared(bench, *INSTRUMENTS.values(), AGAIN)
    for name in INSTRUMENTS:
        rows = page_of(bench, f"certificate {name}").table("U is for about 95 %")
        fit = json.loads(bench.good(f"calibrate show {name} --json").splitlines()[0])
        for row in rows:
            shown, add, u = (column(row, b) for b in ("shown", "add", "U of it"))
            d = float(shown) - fit["r0"]
            same(add, fit["offset"] + fit["slope"] * d)
            low, high = fit["checked_from"], fit["checked_to"]
            beyond = max(low - float(shown), float(shown) - high, 0)
            same(u, 1.959964 * math.hypot(fit["offset_standard_uncertainty"],
                                          fit["surface_standard_uncertainty"],
                                          fit["slope_standard_uncertainty"] * d,
                                          fit["beyond_standard_uncertainty"] * beyond))  # fmt: skip
            if name != "probe-1":
                command = "refract" if name == "prism-1" else "correct"
                applied = json.loads(bench.good(
                    f"{command} {shown} --temp 20C --instrument {name} --json"))["correction"]  # fmt: skip
                same(add, applied["value"])
    day = json_of(bench, "certificate stem-1 --at 2026-03-15")
    assert day["calibration"] == 1 and day["offset"] > -0.002, "another one was in force then"


def reproduces_the_guide(bench):
    """[gum] H.3: the corrections of a thermometer as a straight line."""
    bench.good("instrument add probe-2 --kind thermometer --from 20C --to 30C --division 0.1C")
    with (TABLES / "gum-h3-thermometer.csv").open() as file:
        points = list(csv.DictReader(line for line in file if not line.startswith("#")))
    assert len(points) == 11
    for p in points:
        bench.good(f"calibrate certificate probe-2 {p['t_degC']}C --correction {p['b_degC']} "
                   "--expanded 0.007 --apart")  # fmt: skip
    bench.good("calibrate fit probe-2")
    told = json_of(bench, "certificate probe-2")
    for key, published in [("r0", "24.0085"), ("offset", "-0.1625"), ("slope", "0.00218"),
                           ("offset_standard_uncertainty", "0.0011"),
                           ("slope_standard_uncertainty", "0.00067")]:  # fmt: skip
        same(published, told[key])
    for mark, published in ((20, "-0.1712"), (30, "-0.1494")):
        (at,) = [c for c in told["corrections"] if abs(c["indication"] - mark) < 1e-9]
        same(published, at["correction"])
    residuals = [float(p["resid_degC"]) for p in points]
    for check, published in zip(told["checks"], residuals, strict=True):
        assert abs(check["residual"] - published) <= 0.6e-6, (check, published)


def normal_above(x):
    return 0.5 * math.erfc(x / math.sqrt(2))


def verdicts_keep_the_risk(bench):
    """[ilac-g8]: with a guard band of U the risk at a limit is 2.5 % at the most."""
    seen = Counter()
    tolerance, u = 0.002, 0.0004
    for n, tenths in enumerate([*range(0, 41, 4), 11, 12, 13, 27, 28, 29]):
        error = tenths * 1e-4
        for sign in (1, -1):
            name = f"stem-{n}{'a' if sign > 0 else 'b'}"
            bench.good(STEM.replace("stem-1", name))
            bench.good(f"calibrate certificate {name} 1.040 --correction={-sign * error:.4f} "
                       f"--expanded {2 * u} --factor 2 --on 2026-03-01")  # fmt: skip
            bench.good(f"calibrate fit {name}")
            told = json_of(bench, f"certificate {name}")
            (point,) = told["conformity_points"]
            same(f"{sign * error:.4f}", point["error"])
            beyond, within = normal_above((tolerance - error) / u), normal_above((error - tolerance) / u)
            expected = ("within" if beyond <= 0.025 else
                        "outside" if within <= 0.025 else "cannot_tell")  # fmt: skip
            assert told["conformity"] == point["verdict"] == expected, (error, told["conformity"])
            seen[expected] += 1
    assert seen["within"] > 5 and seen["outside"] > 5 and seen["cannot_tell"] > 5, seen
    # The figure that goes with U = 2 u.
    assert abs(normal_above(2) - 0.02275) < 5e-6


def number_of(bench, steps, command="certificate stem-1"):
    notebook = bench.folder / "other.db"
    notebook.unlink(missing_ok=True)
    kept, bench.environment["AREO_NOTEBOOK"] = bench.environment["AREO_NOTEBOOK"], str(notebook)
    prepared(bench, steps)
    number = json_of(bench, command)["certificate"]
    bench.environment["AREO_NOTEBOOK"] = kept
    return number


def numbers_tell_contents_apart(bench):
    prepared(bench, THREE)
    number = json_of(bench, "certificate stem-1")["certificate"]
    assert re.fullmatch(r"areo-stem-1-cal-1-[0-9a-f]{12}", number), number
    for command in ("", "--on 2026-04-01", "--on 2026-05-01", "--calibration 1", "--full"):
        assert json_of(bench, f"certificate stem-1 {command}")["certificate"] == number, command
    text = bench.good("certificate stem-1")
    assert text.endswith(f"\nend of certificate {number}\n"), text[-200:]
    assert text.count(number) == 2
    page = file_of(bench, "certificate stem-1", "page.html")
    assert page.count(number) == 3, "at its head, in section 1, at its end"
    assert number_of(bench, THREE) == number, "the same content"
    others = [
        THREE.replace("1.042 21C", "1.0420 21C"),
        THREE.replace("1.083", "1.082"),
        THREE.replace("1.001 21C", "1.001 21.5C"),
        THREE.replace("1.001 21C", "1.001 21C --note tap"),
        THREE.replace("1.001 21C", "1.001 21C --temp-accuracy 0.2C"),
        THREE.replace("--water 448g", "--water 448g --balance 0.1g"),
        THREE.replace("T10:00Z", "T10:01Z"),
        THREE.replace("--division 0.002", "--division 0.002 --tolerance 0.001"),
        THREE.replace("--division 0.002", "--division 0.002 --tolerance 0.002"),
        THREE.replace("--division 0.002", "--division 0.002 --note scratched"),
        *(THREE.replace("--division 0.002", f"--division 0.002 {o}") for o in (
            "--maker A", "--serial A", "--made-for 55mN/m", "--stem 5mm", "--mass 25g")),
        *(THREE.replace("--water 448g", f"--water 448g {o}") for o in (
            "--balance-name A", "--distilled", "--tap")),
        THREE.replace("fit stem-1", "fit stem-1 --due 2027-03-01"),
        THREE.replace("fit stem-1", "fit stem-1 --note mine"),
        THREE.replace("fit stem-1", "fit stem-1 --without 3"),
        THREE + "\ninstrument retire stem-1 --reason cracked",
        WATER,
        WATER.replace("21C", "21C --top"),
    ]
    numbers = [number] + [number_of(bench, steps) for steps in others]
    numbers += [number_of(bench, THREE, f"certificate stem-1 {o}")
                for o in ("--by A", "--place A", "--for A")]  # fmt: skip
    numbers.append(number_of(bench, f"{THREE}\n{AGAIN}", "certificate stem-1 --calibration 1"))
    assert len(set(numbers)) == len(numbers), Counter(numbers).most_common(3)


def about(tool, path, *more):
    return subprocess.run([tool, *more[:1], str(path), *more[1:]], check=True, capture_output=True,
                          text=True).stdout  # fmt: skip


def paper_is_complete(bench):
    prepared(bench, THREE, AGAIN)
    told = json_of(bench, "certificate stem-1 --by Pear --place Kitchen --out x.pdf")
    path = bench.folder / "x.pdf"
    sheets = about("pdftotext", path, "-layout", "-").split("\f")[:-1]
    assert len(sheets) > 2, len(sheets)
    for i, sheet in enumerate(sheets, 1):
        assert told["certificate"] in sheet.splitlines()[0], (i, sheet[:200])
        assert f"sheet {i} of {len(sheets)}" in sheet, i
    end = [line.strip() for line in sheets[-1].splitlines() if line.strip()]
    assert f"end of certificate {told['certificate']}" in end[-2:], end[-3:]
    assert "end of certificate" not in "".join(sheets[:-1])
    text = " ".join("".join(sheets).split())
    for item in [*CLAUSES, "Pear", "Kitchen", told["instruction"]]:
        assert item in text, item
    assert text.count(NOT_ACCREDITED) == 2
    # Wherever its budget goes on, the names of its columns stand again.
    with_inputs = [s for s in sheets if re.search(r"rectangular, B", s)]
    assert all("distribution" in s for s in with_inputs) and with_inputs
    fonts = about("pdffonts", path).splitlines()[2:]
    assert fonts and all(re.search(r"\byes +(yes|no) +(yes|no) +\d+ +\d+$", f) for f in fonts), fonts
    for paper, size in (("A4", "A4"), ("Letter", "letter")):
        bench.good(f"certificate stem-1 --paper {paper} --out x.pdf")
        (line,) = [x for x in about("pdfinfo", path).splitlines() if x.startswith("Page size")]
        assert size in line, line


def has_its_picture(bench):
    prepared(bench, THREE)
    bench.environment["PATH"] = "/nonexistent"
    page = page_of(bench, "certificate stem-1")
    assert page.pictures == 1
    assert all("off the fit" in " ".join(r) for r in page.table("U is the expanded"))
    code, out, err = bench.run("certificate stem-1 --out x.pdf")
    assert code == 4 and not out and "weasyprint" in err.lower(), (code, out, err)
    assert not (bench.folder / "x.pdf").exists()


def shows_any_name_as_text(bench):
    bench.good(STEM)
    raw(bench)
    for i, name in enumerate(NAMES):
        for command in (["instrument", "add", option("note", name), "--", name],
                        ["calibrate", "water", option("note", name), "--on", "2026-03-01", "--", name,
                         "1.001", "21C"],
                        ["calibrate", "fit", option("note", name), "--", name]):  # fmt: skip
            code, _, err = bench.run_bytes(command)
            assert code == 0, (i, err[:200])
        said = [option(o, name) for o in ("by", "place", "for")]
        for more in ([], ["--format", "markdown"], ["--json"]):
            code, out, err = bench.run_bytes(["certificate", *said, *more, "--", name])
            assert code == 0 and not OBEYED.search(out), (i, more, err[:200])
            text = out.decode()
            if more == ["--format", "markdown"]:
                assert len(markdown_tables(text)) == 12, i
                assert not re.search(r"(?<!\\)[<`]", text), i
            if more == ["--json"]:
                number = json.loads(text)["certificate"]
                assert len(number) < 80 and "-cal-" in number, number
        code, _, err = bench.run_bytes(["certificate", *said, "--out", "page.html", "--", name])
        assert code == 0, (i, err[:200])
        page = Page((bench.folder / "page.html").read_text(encoding="utf-8"))
        assert not set(page.tags) & {"script", "b", "a", "i"}, (i, page.tags)
        clean = name.decode(errors="replace")
        if clean.isprintable() and "\ufffd" not in clean:
            stated = {r["item"]: r["stated"] for r in page.table("What this certificate is")}
            for item in ("instrument", "made and authorised by", "made for", "note"):
                assert stated[item] == clean, (i, item)


def leaves_files_whole(bench):
    prepared(bench, THREE)
    before = bench.notebook.read_bytes()
    (bench.folder / "link.md").symlink_to(bench.notebook)
    (bench.folder / "old.txt").write_text("an older one")
    for command, code, why in [(f"--out {bench.notebook}", 3, "does not say what it is to be"),
                               (f"--out {bench.notebook} --format text", 4, "is the notebook"),
                               ("--out link.md", 4, "is the notebook"),
                               ("--out nowhere/x.md", 4, "cannot be written"),
                               ("--out old.txt --calibration 9", 3, "no calibration 9"),
                               ("--out old.txt --on 2026-02-01", 3, "")]:  # fmt: skip
        got, out, err = bench.run(f"certificate stem-1 {command}")
        assert got == code and not out and why in err, (command, got, out, err)
    assert (bench.folder / "old.txt").read_text() == "an older one"
    assert bench.notebook.read_bytes() == before
    bench.good("certificate stem-1 --out old.txt")
    assert (bench.folder / "old.txt").read_text(encoding="utf-8").startswith("Certificate of")
    os.unlink(bench.folder / "link.md")
    assert not list(bench.folder.glob("*.partial"))


CHECKS = [every_item_of_the_clause, clauses_follow_what_is_there,
          headlines_say_where_it_was_checked, says_what_is_assumed, names_the_method,
          tells_what_was_stated, sources_are_marked, formats_tell_the_same, json_has_the_printed_numbers,
          budgets_add_up, corrections_are_those_applied, reproduces_the_guide,
          verdicts_keep_the_risk, numbers_tell_contents_apart, paper_is_complete,
          has_its_picture, shows_any_name_as_text, leaves_files_whole]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
