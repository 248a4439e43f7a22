#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Bounds and verdicts near zero: text, CSV, JSON and the notebook say the same, and never contradict.

  limits.py --program PATH
  limits.py --selftest       the checks must fail on a program that does everything wrong

A strength that is no figure is below a limit if, and only if, its printed bound at the same level is
not above it.
"""

import csv
import itertools
import json
import re
import sys

from robust import STEM, main

LIMITS = ["0.05", "0.15", "0.2", "0.5", "1.2"]
LEVELS = ["95", "80", "99.9"]
BOUND_STATES = ("no_measurable_change", "upper_bound")
BELOW = r"below ([0-9.]+) % vol \(about ([0-9.]+) %\)"


def grid():
    """Readings from a little above the original to well below it; acids and vinegar too."""
    rows = [
        f"1.048,{1.0489 - 0.0003 * i:.4f},20C,{culture}"
        for i in range(16) for culture in ("yeast", "mixed", "acetic")
    ]  # fmt: skip
    return "\n".join(["original,present,temperature,culture", *rows, ""]).encode()


def same_as_printed(text, below, level, limit, decision):
    """One bound and one verdict, as printed and for programs."""
    found = re.search("alcohol " + BELOW, text)
    assert found, f"no bound in {text!r}"
    printed, printed_level = float(found[1]), float(found[2])
    assert abs(printed_level - level) < 1e-9, f"{text!r}: the bound is not at {level} %"
    assert below - 1e-9 <= printed <= below + 0.1, f"{text!r}: {below} for programs"
    assert (printed <= limit) == (below <= limit), f"{text!r}: {below} for programs, limit {limit}"
    assert (printed <= limit) == (decision == "below"), f"{text!r}: the verdict is {decision}"
    assert decision in ("below", "cannot_tell"), f"{text!r}: the verdict is {decision}"
    verdict = {"below": "BELOW", "cannot_tell": "CANNOT TELL"}[decision]
    assert f"limit {limit:g} % vol: {verdict}" in text, f"{text!r}: the verdict is {decision}"


def streams_agree(bench):
    states = set()
    decisions = set()
    for limit, level, division in itertools.product(LIMITS, LEVELS, ("0.002", "0.0005")):
        command = f"alcohol --csv - --limit {limit} --level {level} --division {division}"
        code, out, err = bench.run(command, grid())
        assert code == 0, err
        as_json = bench.run(command + " --json", grid())[1].splitlines()
        rows = list(csv.DictReader(out.splitlines()))
        assert rows and len(rows) == len(as_json), f"{len(rows)} rows, {len(as_json)} objects"
        for row, line in zip(rows, as_json):
            o = json.loads(line)
            assert row["state"] == o["state"], line
            states.add(o["state"])
            decision = o.get("limit_decision", "")
            assert row["limit_decision"] == decision, line
            decisions.add((o["state"], decision))
            below = o.get("alcohol_below_percent_vol")
            assert row["alcohol_below_percent_vol"] == ("" if below is None else repr(below)), line
            assert (below is not None) == (o["state"] in BOUND_STATES), line
            if below is None:
                continue
            assert row["alcohol_percent_vol"] == "", "a bound is no figure"
            assert o["alcohol_below_level"] == o["limit_level"] == float(level) / 100, line
            same_as_printed(row["note"], below, float(level), float(limit), decision)
    assert {*BOUND_STATES, "measured", "present_above_original"} <= states, states
    assert {("measured", "above"), ("no_measurable_change", "below")} <= decisions, decisions


def one_by_one(bench):
    """The same for single results, by the law of propagation and sampled."""
    for readings, more in [
        ("1.0400 1.0412", ""),
        ("1.0480 1.0480", " --division 0.0005"),
        ("1.0180 1.0172", " --culture mixed"),
        ("1.0180 1.0160", " --culture acetic"),
        ("1.0400 1.0405", " --monte-carlo --seed 3"),
        ("1.0180 1.0175", " --monte-carlo --seed 3 --culture mixed"),
    ]:
        for limit, level in [("0.05", "95"), ("0.15", "95"), ("0.5", "90"), ("1.2", "99")]:
            command = f"alcohol {readings} --temp 20C --limit {limit} --level {level}{more}"
            code, text, err = bench.run(command)
            json_code, line, _ = bench.run(command + " --json")
            assert code in (0, 1) and code == json_code, err
            assert line.startswith("{"), f"`{command} --json` prints {line!r}"
            o = json.loads(line)
            assert (code == 0) == (o["limit_decision"] == "below"), f"`{command}` exits {code}"
            same_as_printed(text, o["alcohol_below_percent_vol"], float(level), float(limit),
                            o["limit_decision"])  # fmt: skip


def notebook_agrees(bench):
    """What a batch lists, reading by reading, against where its trend says that it was below."""
    bench.good(STEM)
    bench.good("batch add PT-1 --on 2026-03-01 --culture mixed")
    bench.good("reading add PT-1 1.048 --temp 20C --original --on 2026-03-02T10:00")
    one = ""
    for day, reading in enumerate(["1.0485", "1.048", "1.0475", "1.046"], 3):
        one += bench.good(f"reading add PT-1 {reading} --temp 20C --on 2026-03-{day:02}T10:00")
    shown = bench.good("batch show PT-1")
    bounds = [float(m) for m in re.findall(r"below ([0-9.]+)$", shown, re.M)]
    assert len(bounds) == 3, shown
    assert re.search(r"alcohol +" + BELOW, one), one
    for text in (shown, one, bench.good("trend PT-1"), bench.good("compare PT-1 --on 2026-03-04 --on 2026-03-06")):  # fmt: skip
        assert not re.search(r"alcohol +alcohol", text), text
    objects = [json.loads(line) for line in bench.good("trend PT-1 --json").splitlines()]
    exact = [o["alcohol_below_percent_vol"] for o in objects if "alcohol_below_percent_vol" in o]
    assert all(a <= b <= a + 0.01 for a, b in zip(exact, bounds, strict=True)), (exact, bounds)
    for limit in LIMITS:
        trend = bench.good(f"trend PT-1 --limit {limit}")
        until = re.search(r"under until .*?\(reading (\d+)\)", trend)
        last = int(until[1]) if until else 1
        # What is below was below before: the last one that is.
        expected = max((n for n, b in enumerate(bounds, 2) if b <= float(limit)), default=1)
        assert last == expected or (expected == 4 and last == 5), f"{bounds}: {trend}"


CHECKS = [streams_agree, one_by_one, notebook_agrees]

if __name__ == "__main__":
    sys.exit(main(CHECKS))
