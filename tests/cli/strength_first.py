#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a strength is told with: it leads, then the decision, then the two gravities; no more unless
it is asked for, and nothing twice.

  strength_first.py --program PATH
  strength_first.py --selftest       the checks must fail on a program that does everything wrong
"""

import json
import re
import sys

from robust import main

FIGURE = r"[\d.]+ ± [\d.]+ % vol  \(about 95 %\)"
GRAVITY = r"  {} gravity +[\d.]+ ± [\d.]+"
REST = {"alcohol by mass": "alcohol_percent_mass", "original extract": "original_extract_percent",
        "real extract": "real_extract_percent", "apparent extract": "apparent_extract_percent",
        "apparent attenuation": "apparent_attenuation_percent",
        "real attenuation": "real_attenuation_percent", "energy": "energy_kj_per_100_ml"}  # fmt: skip
ALCOHOL = "alcohol 1.048 1.011 --temp 20C"
COMMANDS = [ALCOHOL, "refract 7.8Bx --temp 21C --original 11.8Bx --original-temp 20C",
            "refract 7.8Bx --temp 21C --gravity 1.021 --gravity-temp 20C"]  # fmt: skip


def lines(bench, command, code=0):
    left, out, err = bench.run(command)
    assert left == code, (command, left, err)
    return out.splitlines()


def strength_leads(bench):
    for command in COMMANDS:
        said = lines(bench, command)
        assert re.fullmatch(FIGURE, said[0]), said
        assert re.fullmatch(GRAVITY.format("original"), said[1]), said
        assert re.fullmatch(GRAVITY.format("present"), said[2]), said
        assert said[-1].startswith("next: "), said
        assert not any(x.strip().startswith((*REST, "that is", "for comparison")) for x in said), said
        assert [x for x in said if "--all" in x] == [said[3]], said
    assert len(lines(bench, ALCOHOL)) <= 8


def decision_follows(bench):
    said = lines(bench, ALCOHOL + " --limit 0.5", code=1)
    assert re.fullmatch(FIGURE, said[0]) and said[1].startswith("limit 0.5 % vol: ABOVE"), said
    assert re.fullmatch(GRAVITY.format("original"), said[2]), said
    said = lines(bench, "alcohol 1.048 1.048 --temp 20C --limit 0.5")
    assert said[0].startswith("no measurable change; alcohol below 0."), said
    assert said[1].startswith("limit 0.5 % vol: BELOW"), said
    assert re.fullmatch(GRAVITY.format("original"), said[2]), said
    assert not any("--all" in x for x in said), said


def all_is_there(bench):
    """With --all every number that programs get, which get them always."""
    for command in COMMANDS:
        for more in ("", " --full"):
            result = json.loads(bench.good(command + more + " --json"))
            assert result == json.loads(bench.good(command + more + " --all --json"))
            said = lines(bench, command + more + " --all")
            assert re.match(r"[\d.]+ ± ", said[0]), said
            for name, key in REST.items():
                row = [x for x in said if x.startswith(f"  {name}  ")]
                assert len(row) == 1, (name, said)
                value = re.search(r"  +(-?[\d.]+) ± ([\d.]+)", row[0])
                for told, exact in ((value[1], "value"), (value[2], "expanded_uncertainty")):
                    digit = 10 ** -len(told.partition(".")[2]) if "." in told else 10
                    assert abs(float(told) - result[key][exact]) <= digit, (row, result[key])
            assert not any("--all shows" in x for x in said), said


def has_to_act_on_something(bench):
    (bench.folder / "rows.csv").write_text("original,present\n1.048,1.011\n")
    for command in ("alcohol --csv rows.csv --all", "refract --csv rows.csv --all",
                    "refract 12.4Bx --temp 20C --all"):  # fmt: skip
        code, out, err = bench.run(command)
        assert code == 2 and not out and "--all" in err, (command, code, err)


def says_nothing_twice(bench):
    """No word after itself under a head that has it, no note twice."""
    for command in ("instrument add stem --division 0.002", "batch add X --volume 4L --on 2026-05-01",
                    "reading add X 1.048 --temp 20C --original --on 2026-05-02"):  # fmt: skip
        bench.good(command)
    commands = [*COMMANDS, "alcohol 1.048 1.048 --temp 20C",
                "alcohol 1.018 1.016 --temp 20C --culture acetic",
                "reading add X 1.048 --temp 20C --on 2026-05-03",
                "reading add X 1.030 --temp 20C --degassed no --on 2026-05-04",
                "reading add X 1.029 --temp 20C --on 2026-05-05 --yes",
                "batch show X", "trend X --limit 0.5", "compare X --on 2026-05-03 --on 2026-05-05",
                "bottle X"]  # fmt: skip
    printed = 0
    for command in commands:
        _, out, err = bench.run(command)
        said = (out + err).splitlines()
        printed += len(said)
        for line in said:
            assert not re.search(r"\b(\w{3,}) +\1\b", line), (command, line)
        notes = [x.strip() for x in said if len(x) > 40]
        assert len(notes) == len(set(notes)), (command, said)
    assert printed > 60, printed
    given = b"1.046\n20C\n\n\ndone\n"
    _, out, _ = bench.run("bench X", given)
    assert "gravity 20/20" in out and not re.search(r"\b(\w{3,}) +\1\b", out), out


CHECKS = [strength_leads, decision_follows, all_is_there, has_to_act_on_something,
          says_nothing_twice]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
