#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How good a strength is that a refractometer tells, by what is known of the instruments.

  refractometer_accuracy.py PROGRAM            prints the tables
  refractometer_accuracy.py PROGRAM FILE       compares them with FILE

One invented wort of 12.4 Brix, fermented to 5.0 % vol, all of it read at 20 °C. Instruments that
are "checked" were checked in water and in two solutions of sugar, weighed to 0.1 g, and showed
there what they should. Every figure is the ± that the program states.
"""

import difflib
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

BRIX_BEFORE, BRIX_NOW = "12.4Bx", "6.4Bx"
GRAVITY_BEFORE, GRAVITY_NOW = "1.0500", "1.0115"
KINDS = {"sugar": ("--extract", "sucrose"), "own factor": ("--liquid", "wort"), "mixed": ()}
PRISMS = {"prism-new": "never checked", "prism-checked": "checked"}
STEMS = {
    "stem-new": "0.002, never checked",
    "stem-0.002": "0.002, checked",
    "stem-0.001": "0.001, checked",
    "stem-0.0005": "0.0005, checked",
}
# What instruments without error show in water and in both solutions.
SHOWN = {"refractometer": ("0.000", "9.976", "19.952"), "hydrometer": ("1.0000", "1.0399", "1.0827")}
WEIGHED = ("50g", "450g"), ("100g", "400g")


def areo(*words):
    done = subprocess.run([PROGRAM, *words], env=ENVIRONMENT, capture_output=True, text=True)
    if done.returncode:
        sys.exit(f"areo {' '.join(words)}: {done.stderr}")
    return done.stdout


def interval(*words):
    """± of the strength, as two decimals."""
    result = json.loads(areo(*words, "--temp", "20C", "--json"))
    if result["state"] != "measured":
        sys.exit(f"areo {' '.join(words)}: {result['state']}")
    return f"{result['alcohol_percent_vol']['expanded_uncertainty']:.2f}"


def check(name, kind):
    water, *sugar = SHOWN[kind]
    day = ("--on", "2026-03-01")
    areo("calibrate", "water", name, water, "20C", *day)
    for shown, (solute, solvent) in zip(sugar, WEIGHED):
        solution = ("--solute", solute, "--water", solvent, "--balance", "0.1g")
        areo("calibrate", "sugar", name, shown, "20C", *solution, *day)
    areo("calibrate", "fit", name)


def set_up():
    for name, words in PRISMS.items():
        areo("instrument", "add", name, "--kind", "refractometer")
        if words == "checked":
            check(name, "refractometer")
    for name, words in STEMS.items():
        division, state = words.split(", ")
        areo("instrument", "add", name, "--division", division)
        if state == "checked":
            check(name, "hydrometer")
    # The factor of the wort, from one pair read with what a kitchen may have.
    both = ("--instrument", "prism-checked", "--hydrometer", "stem-0.002")
    areo("liquid", "pair", "wort", BRIX_BEFORE, GRAVITY_BEFORE, "--temp", "20C", *both)


def row(*cells):
    return f"{cells[0]:<17}{cells[1]:<23}" + "".join(f"{c:>12}" for c in cells[2:])


def tables():
    yield "± of a strength of 5.0 % vol, in % vol (about 95 %), by the kind of extract"
    yield ""
    yield "a refractometer before and now"
    yield row("refractometer", "", *KINDS)
    for prism, words in PRISMS.items():
        now = ("refract", BRIX_NOW, "--instrument", prism, "--original", BRIX_BEFORE)
        yield row(words, "", *(interval(*now, *kind) for kind in KINDS.values()))
    yield ""
    yield "a hydrometer before, a refractometer now"
    yield row("refractometer", "hydrometer", *KINDS)
    for stem in ("stem-new", "stem-0.002"):
        prism = "prism-new" if stem == "stem-new" else "prism-checked"
        now = ("refract", BRIX_NOW, "--instrument", prism, "--original", GRAVITY_BEFORE)
        kinds = (interval(*now, "--hydrometer", stem, *kind) for kind in KINDS.values())
        yield row(PRISMS[prism], STEMS[stem], *kinds)
    yield ""
    yield "both now, no original"
    yield row("refractometer", "hydrometer", *KINDS)
    for prism, prism_words in PRISMS.items():
        for stem, stem_words in STEMS.items():
            now = ("refract", BRIX_NOW, "--instrument", prism, "--gravity", GRAVITY_NOW)
            kinds = (interval(*now, "--hydrometer", stem, *kind) for kind in KINDS.values())
            yield row(prism_words, stem_words, *kinds)
    yield ""
    yield "for comparison: a hydrometer before and now"
    yield row("", "hydrometer", "any")
    for stem, words in STEMS.items():
        yield row("", words, interval("alcohol", GRAVITY_BEFORE, GRAVITY_NOW, "--instrument", stem))


if __name__ == "__main__":
    PROGRAM = str(Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        ENVIRONMENT = os.environ | {"AREO_NOTEBOOK": f"{folder}/notebook.db", "TZ": "UTC"}
        set_up()
        printed = "".join(line.rstrip() + "\n" for line in tables())
    if len(sys.argv) < 3:
        print(printed, end="")
        sys.exit()
    expected = Path(sys.argv[2]).read_text(encoding="utf-8")
    sys.stdout.writelines(
        difflib.unified_diff(expected.splitlines(True), printed.splitlines(True), "written", "printed")
    )
    sys.exit(expected != printed)
