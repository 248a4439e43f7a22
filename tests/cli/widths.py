#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Lines for people are as wide as the screen, and no wider; what is there to be copied is whole.

  widths.py --program PATH
  widths.py --selftest       the checks must fail on a program that does everything wrong

A line may be wider if it is a single word, as a path or an address is, or a command of areo alone.
How wide a character is says Python's copy of the Unicode database.
"""

import json
import re
import subprocess
import sys
import unicodedata
from pathlib import Path

from report_page import INSTRUMENT, JAR
from robust import main
from terminal import shown_on_terminal

SCENARIO = Path(__file__).resolve().parents[2] / "docs/demo/scenario.sh"
WIDE_NAMES = ["short", "a-name-of-a-batch-that-goes-on-and-on-and-on-without-an-end-anywhere-near-here",
              "梨と百里香の飲み物、二〇二六年の春に仕込んだもの", "p\u0300e\u0301a\u0302r 🍐🍐🍐 and thyme in the cellar"]  # fmt: skip
REFRACTOMETER = """instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --on 2026-02-28
calibrate water prism-1 0.4 19C --tap --on 2026-03-01
calibrate fit prism-1
liquid pair pear-juice 12.6Bx 1.050 --temp 20C --instrument prism-1 --hydrometer stem-1 --on 2026-03-02"""
# What prints for people; "table" makes sheets of paper too.
COMMANDS = """trend PT-1 --limit 0.5
trend PT-1 --limit 0.5 --plot
trend PT-1 --full
trend PT-1 --expected 1.002
batch show PT-1
batch show PT-1 --full
batch list
bottle PT-1 --rating 90psi
bottle PT-1 --expected 1.008 --carbonation 5 --volume 4L
instrument list
instrument show stem-1
instrument show prism-1
liquid list
liquid show pear-juice
calibrate show stem-1
calibrate show prism-1
calibrate fit stem-1
certificate stem-1 --by me
convert 1.048
correct 1.048 --temp 27C --instrument stem-1
correct 1.2 --temp 27C --instrument stem-1
refract 7.8 --temp 21C --original 11.8Bx --original-temp 27C --instrument prism-1
refract 7.8 --temp 21C --gravity 1.021 --instrument prism-1 --hydrometer stem-1
alcohol 1.048 1.011 --temp 20C --instrument stem-1
alcohol 1.048 1.011 --temp 20C --instrument stem-1 --limit us-0.5
alcohol 1.004 --temp 20C --sugar 450g --water 5L
alcohol 1.010 1.040 --temp 20C
budget alcohol 1.048 1.011 --temp 20C --instrument stem-1
budget correct 1.048 --temp 27C --instrument stem-1 --target 0.001
solution sugar --target 1.040 --total 500g --instrument stem-1
table conversion --step 0.010
table conversion --columns SG15/15,SG60F,SGair,kg/m3,P,Bx,g/L,Be,Oe --step 0.010
table temperature
table temperature --instrument stem-1 --step 5C
table alcohol
table strength
table card stem-1
table card prism-1
table log
table log --batch PT-1
table refractometer --originals 10,12
table solution salt --to 1.020
table dilution
report PT-1 --out page.html
export --format csv --out readings.csv
reading add PT-9 1.048 --temp 20C
reading add PT-1 1.048
--help
trend --help
instrument add --help
liquid pair --help
reading add --help
table temperature --help"""


def columns(line):
    return sum(0 if unicodedata.category(c) in ("Mn", "Me", "Cf") and c != "\xad"
               else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)  # fmt: skip


def excused(line):
    """A single word, or a command alone."""
    return " " not in line.strip() or re.fullmatch(r"\s*(next: |hint: |\$ |Usage: )?areo( .*)?", line)


def wide_lines(text, most):
    return [line for line in text.splitlines() if columns(line) > most and not excused(line)]


def prepared(bench, name=None):
    """A notebook with something of everything; one name for all of it, if one is given."""
    for command in "\n".join([INSTRUMENT, JAR, REFRACTOMETER]).splitlines():
        words = command.split()
        bench.good([{"PT-1": name, "stem-1": name, "prism-1": f"{name}-p", "pear": name,
                     "pear-juice": f"{name}-j", "jar": name}.get(w, w) if name else w
                    for w in words])  # fmt: skip
    for bottle, gravity in (("A", "1.010"), ("B", "1.013"), (name or "C", "1.0095")):
        bench.good(["reading", "add", name or "PT-1", gravity, "--temp", "21C", "--bottle", bottle,
                    "--instrument", name or "stem-1", "--on", "2026-03-12T10:00"])  # fmt: skip


def said(bench, command, width):
    bench.environment["COLUMNS"] = str(width)
    _, out, err = bench.run(command)
    return out + err


def commands_fit(bench):
    prepared(bench)
    found, printed = [], 0
    for command in [*COMMANDS.splitlines(), "compare PT-1", "compare PT-1 --within 0.3"]:
        for width in (80, 120):
            text = said(bench, command, width)
            printed += len(text.splitlines())
            found += [f"{command} at {width}: {line}" for line in wide_lines(text, width)]
    assert printed > 1000 and not found, f"{len(found)} of {printed} lines:\n" + "\n".join(found)


def names_fit(bench):
    """Names are cut nowhere, and push nothing off the screen; a long one may be a line."""
    for name in WIDE_NAMES:
        bench.notebook.unlink(missing_ok=True)
        bench.environment["COLUMNS"] = "2000"
        prepared(bench, name)
        found = []
        for command in (["trend", name, "--bottle", name, "--limit", "0.5"], ["batch", "show", name],
                        ["batch", "list"], ["instrument", "list"], ["liquid", "list"],
                        ["compare", name], ["bottle", name, "--bottle", name],
                        ["calibrate", "show", name], ["certificate", name, "--by", name],
                        ["table", "card", name]):  # fmt: skip
            for width in (80, 120):
                text = said(bench, command, width)
                found += [f"{command[:2]} at {width}: {line}" for line in wide_lines(text, width)
                          if max(map(columns, line.split())) < 40]  # fmt: skip
            if command[0] in ("batch", "instrument"):
                whole = "".join(text.split())
                assert "".join(name.split()) in whole, (command, text)
        assert not found, f"{len(found)} lines:\n" + "\n".join(found)


def demonstration_fits(bench):
    for width in (80, 120):
        bench.notebook.unlink(missing_ok=True)
        done = subprocess.run(
            ["sh", str(SCENARIO)], capture_output=True, encoding="utf-8", cwd=bench.folder,
            env=bench.environment | {"AREO": str(Path(bench.program).resolve()),
                                     "AREO_OUT": str(bench.folder), "COLUMNS": str(width)})  # fmt: skip
        assert done.returncode == 0, done.stderr
        lines = [x for x in done.stdout.splitlines() if not x.startswith(("$ ", "# "))]
        wide = [x for x in lines if columns(x) > width and not excused(x)]
        assert len(lines) > 100 and not wide, f"{len(wide)} of {len(lines)}:\n" + "\n".join(wide)


def numbers(text):
    return re.findall(r"-?\d+(?:\.\d+)?", text)


def loses_no_number(bench):
    """What a narrow screen does not show, it names."""
    prepared(bench)
    for command in ("trend PT-1 --limit 0.5", "batch show PT-1", "compare PT-1", "table conversion",
                    "bottle PT-1", "table temperature", "calibrate show stem-1"):  # fmt: skip
        wide, narrow = (said(bench, command, width) for width in (2000, 80))
        without = re.search(r"without (.*?): (\d+)\s+columns have room", narrow, re.S)
        if command.startswith("trend"):
            assert without and without[1].count("real") == 2, narrow
            assert "have room" not in said(bench, command, int(without[2])), without[2]
            assert "have room" in said(bench, command, int(without[2]) - 1), without[2]
            rows = [re.split("  +", x.strip()) for x in wide.splitlines() if " ± " in x]
            lost = {n for row in rows for cell in row[5:] for n in numbers(cell)}
        else:
            assert not without, narrow
            lost = set()
        missing = set(numbers(wide)) - set(numbers(narrow)) - lost
        assert not missing, (command, missing)


def commands_stay_whole(bench):
    """What is there to be copied is on one line, on the narrowest screen too."""
    prepared(bench)
    for command, copied in [
        ("instrument list", None),
        ("reading exclude 77 --reason x", None),
        ("batch add PT-9", "areo reading add PT-9 READING --temp TEMP --original"),
        ("alcohol 1.048 1.011 --temp 20C --instrument stem-1 --limit us-0.5", None),
        ("batch show PT-1", "areo reading add PT-1 READING --temp TEMP"),
        ("correct 1.048 --temp 27C --instrument prism-1", None),
        ("trend --help", "areo trend PT-1 --bottle A --expected 1.004"),
    ]:
        for width in (40, 80):
            text = said(bench, command + (" --on 2026-03-01 --yes" if "add" in command and width == 40
                                          else ""), width)  # fmt: skip
            if width == 40 or "add" not in command:
                assert copied is None or copied in text, text


def on_terminal(bench, command, width):
    return shown_on_terminal(
        [bench.program, *command.split()], "stdout", width, cwd=bench.folder,
        env={k: v for k, v in bench.environment.items() if k != "COLUMNS"})[0]  # fmt: skip


def asks_the_terminal(bench):
    prepared(bench)
    command = "trend PT-1 --limit 0.5"
    at = {width: on_terminal(bench, command, width) for width in (80, 120)}
    widest = {width: max(map(columns, text.splitlines())) for width, text in at.items()}
    assert widest[80] <= 80 < widest[120] <= 120, widest
    # A terminal that does not know its width, and what is none, count as 80 wide.
    shown = on_terminal(bench, command, 0)
    assert shown == at[80], f"not told the width:\n{shown}\n80 wide:\n{at[80]}"
    del bench.environment["COLUMNS"]
    shown = bench.good(command)
    assert shown == at[80], f"no terminal:\n{shown}\n80 wide:\n{at[80]}"
    for columns_of, same in (("120", 120), ("x", 80), ("", 80), ("0", 80), ("-5", 80)):
        bench.environment["COLUMNS"] = columns_of
        shown = bench.good(command)
        assert shown == at[same], f"COLUMNS={columns_of!r}:\n{shown}\n{same} wide:\n{at[same]}"


def programs_get_whole_lines(bench):
    """A screen is nothing to JSON and CSV."""
    prepared(bench)
    for command in ("trend PT-1 --json", "batch show PT-1 --json", "table conversion --csv"):
        assert said(bench, command, 40) == said(bench, command, 2000), command
    for line in said(bench, "trend PT-1 --json", 40).splitlines():
        json.loads(line)


CHECKS = [commands_fit, names_fit, demonstration_fits, loses_no_number, commands_stay_whole,
          asks_the_terminal, programs_get_whole_lines]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
