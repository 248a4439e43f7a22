#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a series of readings may conclude, as a person sees it: a weak drink, a stem with divisions of
0.002, one reading a day, fizz, and now and then a slip of the pen.

  series.py --program PATH
  series.py --selftest       the checks must fail on a program that does everything wrong
"""

import json
import re
import sys

from robust import main

STEM = "instrument add stem --division 0.002"


def begin(bench, name="X", culture="mixed"):
    bench.good(STEM)
    bench.good(f"batch add {name} --culture {culture} --volume 4L --on 2026-05-01")


def read(bench, gravities, name="X", first=3, more="", days=None):
    """One a day, that of the third of May original."""
    days = days or range(first, first + len(gravities))
    for day, gravity in zip(days, gravities):
        original = "--original" if day == 3 else more
        month, day = (5, day) if day <= 31 else (6, day - 31)
        bench.good(f"reading add {name} {gravity} --temp 20C --on 2026-{month:02}-{day:02} "
                   f"--yes {original}")  # fmt: skip


def state(bench, *more):
    said = bench.good(" ".join(["trend X", *more])).splitlines()
    return next((x for x in said if x.startswith("state: ")), "no state")


def falls_step_by_step(bench):
    """Each step is smaller than its ±; the whole fall is certain."""
    begin(bench)
    read(bench, "1.022 1.021 1.020 1.019 1.018 1.017 1.016".split())
    assert state(bench).startswith("state: FALLING: 0.002"), state(bench)


def falls_in_whole_steps(bench):
    """Equal readings in pairs are no rest: it falls at one pace all along."""
    begin(bench)
    read(bench, "1.022 1.022 1.021 1.021 1.020 1.020 1.019 1.019".split())
    assert state(bench).startswith("state: FALLING"), state(bench)
    out = bench.good("bottle X")
    assert "STILL FERMENTS" in out and "next: close nothing yet" in out, out


def slips_move_nothing(bench):
    """A typed digit, and a reading of another bottle, are named, and nothing is built on them."""
    for gravities, days, odd in [
        ("1.022 1.021 1.020 1.018 1.15 1.014", [3, 4, 5, 6, 9, 10], r"0\.135\d above"),
        ("1.022 1.022 1.021 1.019 1.0135 1.018 1.017", None, r"0\.00[45]\d below"),
    ]:
        bench.notebook.unlink(missing_ok=True)
        begin(bench)
        gravities = gravities.split()
        stem = " --yes" if "1.15" in gravities else ""
        if stem:
            bench.good("instrument add long --from 0.990 --to 1.170 --division 0.002")
        for day, gravity in zip(days or range(3, 3 + len(gravities)), gravities):
            with_stem = "--instrument long" if stem else ""
            bench.good(f"reading add X {gravity} --temp 20C --on 2026-05-{day:02} --yes {with_stem} "
                       f"{'--original' if day == 3 else ''}")  # fmt: skip
        out = bench.good("trend X")
        assert "state: FALLING" in out, out
        assert re.search(rf"note: reading 5 lies {odd} the others", out), out
        assert "areo reading exclude 5 --reason TEXT" in out, out
        assert "close nothing yet" in bench.good("bottle X")


def bubbles_decide_one_side(bench):
    """What is not degassed never decides for under, and says so wherever it is shown."""
    begin(bench)
    read(bench, ["1.022", "1.0215", "1.021"], more="--degassed no")
    out = bench.good("trend X --limit 0.5")
    assert "Under 0.5 % vol? Not known" in out and "under until" not in out, out
    assert "not degassed" in bench.good("reading list X")
    assert "not degassed" in bench.good("batch show X")
    assert '"degassed":false' in bench.good("trend X --json")
    bench.good("report X --audience --limit 0.5 --out page.html")
    page = (bench.folder / "page.html").read_text()
    assert "ubbles" in page and "t is below" not in page, re.sub("<[^>]+>", " ", page)[-3000:]
    read(bench, ["1.016"], first=6, more="--degassed no")
    assert "over from" in bench.good("trend X --limit 0.5")
    assert re.search(r"alcohol +at least [0-9.]+ % vol", bench.good(
        "reading add X 1.0155 --temp 20C --on 2026-05-07 --degassed no"))  # fmt: skip


def one_statement(bench):
    """The curve and the single readings say one thing: the interval lies inside the bracket."""
    begin(bench)
    read(bench, "1.024 1.024 1.023 1.021 1.018 1.015 1.012 1.010 1.009 1.009".split())
    out = bench.good("trend X --limit 0.5")
    answer = re.search(r"Under 0.5 % vol\? No: it passed it between (\S+ \S+) and (\S+ \S+)", out)
    bracket = re.search(r"under until (\S+ \S+) .*over from (\S+ \S+) ", out)
    assert answer and bracket, out
    assert bracket[1] <= answer[1] <= answer[2] <= bracket[2], out
    curve = re.search(r"by the curve the drink passed it .*\((\S+ \S+) to (\S+ \S+);", out)
    assert not curve or bracket[1] <= curve[1] <= curve[2] <= bracket[2], out


def what_would_decide(bench):
    """An answer that is not known says which reading would settle it, and such a reading does."""
    begin(bench)
    read(bench, ["1.022", "1.020", "1.0185"])
    out = bench.good("trend X --limit 0.5")
    would = re.search(r"a reading of (\S+) or more would decide for under, one of (\S+) or less", out)
    assert would, out
    for day, gravity, side in [(6, would[1], "Yes"), (7, would[2], "No")]:
        bench.good(f"reading add X {gravity} --temp 20C --degassed yes --yes --on 2026-05-{day:02}")
        out = bench.good("trend X --limit 0.5")
        assert f"Under 0.5 % vol? {side}" in out, out
        bench.good(f"reading exclude {day - 2} --reason trial")


def rest_takes_time(bench):
    """Four equal readings hide a fall; three weeks of them do not, and then a stated end counts."""
    begin(bench, culture="yeast")
    down = "1.022 1.019 1.013 1.008 1.005 1.004".split()
    read(bench, down + ["1.004"] * 3)
    assert re.match(r"state: NO FALL SEEN in .*; up to 0\.00\d+ a day would hide: ", state(bench))
    assert "bar in a closed bottle, a week" in state(bench)
    assert "close nothing yet" in bench.run("bottle X --expected 1.003 --rating 7bar")[1]
    read(bench, ["1.004"] * 18, first=12)
    assert state(bench).startswith("state: STEADY"), state(bench)
    code, out, _ = bench.run("bottle X --expected 1.003 --rating 7bar")
    assert code == 0 and "it has been steady there" in out and "leave it open" not in out, out
    assert "fastest pace that goes with these readings" in out and "gauge" in out, out
    assert "STUCK above the expected 0.998" in state(bench, "--expected 0.998")
    made = json.loads(bench.good("trend X --json").splitlines()[-1])
    assert made["state"] == "steady" and made["hidden"]["bar_a_week"] < 0.3, made


def programs_hear_as_much(bench):
    """The pace, the days until the rating, and what is odd are told to programs as to people."""
    begin(bench, culture="yeast")
    read(bench, "1.022 1.019 1.013 1.008 1.025 1.004 1.003 1.003".split())
    out = " ".join(bench.good("bottle X --rating 5bar").split())
    made = json.loads(bench.good("bottle X --rating 5bar --json"))
    pace = made["pace"]
    days = int(pace["days"])
    assert pace["bar"] == 5 and f"reaches 5 bar after {days} day" in out, (pace, out)
    until = float(re.search(r"is a fall of \S+ from now on, to (\S+)", out)[1])
    assert abs(until - pace["until_sg_20_20"]) < 0.0001 and pace["sg_per_day"] > 0, (pace, out)
    assert [o["readings"] for o in made["odd"]] == [[5]] and "reading 5 lies" in out, made["odd"]
    assert json.loads(bench.good("bottle X --rating 0.1bar --json"))["pace"] is None


def priming_waits(bench):
    """No amount of sugar while it falls; at rest, also what it makes beside the stated end."""
    begin(bench, culture="yeast")
    read(bench, "1.022 1.019 1.013 1.008 1.005 1.004".split())
    priming = "bottle X --expected 1.003 --carbonation 5g/L"
    out = bench.good(priming)
    assert "priming for 5 g/L: not yet" in out and "table sugar" not in out, out
    made = json.loads(bench.good(priming + " --json"))
    assert made["priming"] == "not_yet" and "priming_sugar_g" not in made, made
    read(bench, ["1.004"] * 21, first=9)
    out = bench.good(priming)
    assert "of table sugar for 4 L stay below it" in out and "not yet" not in out, out
    assert "it ends at 1.0030 and the priming" in out, out
    # Where the end counts in place of everything, it does so with the sugar too.
    code, out, _ = bench.run(priming + " --rating 9bar")
    assert code == 0 and "ABOVE" not in out and "leave it open" not in out, out
    out = bench.good("bottle X --expected 0.998 --carbonation 10g/L")
    assert "not yet: it is stuck" in out and "table sugar" not in out, out


def one_rule_for_an_end(bench):
    """An end that cannot be is refused by whoever is told of it, in the same words."""
    begin(bench)
    read(bench, "1.022 1.019 1.013 1.008 1.005 1.004".split())
    for end, why in (("1.020", "above the present gravity"), ("0.980", "where all extract would be")):
        said = [bench.run(f"{command} --expected {end}") for command in
                ("bottle X", "trend X", "trend X --json", "report X --out p.html")]  # fmt: skip
        assert all(code == 3 for code, _, _ in said), said
        assert why in " ".join(said[0][2].split()) and said[0] == said[1] == said[3], said
    # What was added since may have lifted it.
    bench.good("addition add sugar X 150g --on 2026-05-10 --yes")
    bench.good("trend X --expected 1.010")


def why_an_end_counts(bench):
    """For a stated end: whether the drink is there and steady, there, above it, or stuck above it."""
    begin(bench, culture="yeast")
    read(bench, "1.022 1.019 1.013 1.008 1.005 1.004".split())

    def said(end, rating="5bar"):
        return " ".join(bench.run(f"bottle X --expected {end} --rating {rating}")[1].split())

    assert "it is at 1.0035, above that, and not steady" in said("0.998"), said("0.998")
    assert "it is there, within the ±, but not yet steady" in said("1.003"), said("1.003")
    read(bench, ["1.004"] * 21, first=9)
    assert "it is steady at 1.0035, above that, and may" in said("0.998"), said("0.998")
    assert "if it stays at 1.0030: it has been steady there" in said("1.003"), said("1.003")
    assert "all extract counts" not in said("1.003") + said("0.998", "20bar")


def slips_at_entry(bench):
    """What cannot be is asked about before it is noted."""
    begin(bench)
    read(bench, ["1.022"])
    bench.good("reading add X 1.018 --temp 20C --on 2026-05-04T10:00")
    for command in ("reading add X 1.0018 --temp 20C --on 2026-05-04T10:30",
                    "addition add sugar X 4000g --on 2026-05-05"):  # fmt: skip
        code, out, err = bench.run(command)
        assert code == 3 and "--yes" in out + err, (command, code, out, err)


def a_noted_slip_questions_nothing(bench):
    """What follows a slip that was noted is compared with what came before it, and says so."""
    begin(bench)
    bench.good("instrument add long --from 0.990 --to 1.170 --division 0.002")
    add = "reading add X {} --instrument long --temp 20C --on 2026-05-{:02}"
    for gravity, day in (("1.022 --original", 3), ("1.020", 4), ("1.018", 6), ("1.15 --yes", 9)):
        bench.good(add.format(gravity, day))
    out = " ".join(bench.good(add.format("1.016", 10)).split())
    assert "since 2026-05-06 (4.0 days; reading 4 is far from both and does not count" in out, out
    code, _, err = bench.run(add.format("1.060", 11))
    assert code == 3 and "above 1.016" in " ".join(err.split()), err


def equal_is_stated(bench):
    """Two drinks are the same only within what somebody said; else they are not told apart."""
    begin(bench)
    for bottle, gravity in (("A", "1.018"), ("B", "1.0175")):
        if bottle == "A":
            bench.good("reading add X 1.022 --temp 20C --on 2026-05-03 --original")
        bench.good(f"reading add X {gravity} --temp 20C --bottle {bottle} --on 2026-05-06")
    out = bench.good("compare X")
    assert re.search(r"NOT TOLD APART: B is stronger by [0-9.]+ ± [0-9.]+ % vol; from [0-9.]+ on", out)
    assert "SAME" not in out and "SAME within 0.8 % vol" in bench.good("compare X --within 0.8")


def days_of_a_sensor(bench):
    """Of many readings a person sees one a day; nothing is lost for who asks for all."""
    begin(bench)
    rows = ["date,reading,temperature"]
    for i in range(4 * 96):
        day, quarter = divmod(i, 96)
        rows.append(f"2026-05-{day + 4:02}T{quarter // 4:02}:{quarter % 4 * 15:02}Z,"
                    f"{1.022 - i * 0.00002 + 0.0002 * (-1) ** i:.4f},20C")  # fmt: skip
    (bench.folder / "sensor.csv").write_text("\n".join(rows) + "\n")
    bench.good("reading add X 1.022 --temp 20C --on 2026-05-03 --original")
    bench.good("import sensor.csv --batch X --yes")
    for command in ("trend X", "batch show X"):
        shown = re.findall(r"^  \d+ +2026-", bench.good(command), re.MULTILINE)
        assert len(shown) == 5, (command, shown)
        assert "380 more readings of these days are not shown; --all shows them" in bench.good(command)
        assert len(re.findall(r"^  \d+ +2026-", bench.good(command + " --all"), re.MULTILINE)) == 385
    assert len(bench.good("trend X --json").splitlines()) == 386
    assert "FALLING" in state(bench)


def added_and_not_noted(bench):
    """What lies apart for days is no slip: it is neither left out nor called rest."""
    for gravities in ("1.030 1.026 1.022 1.018 1.015 1.013 1.011 1.010 1.010 1.010 1.010 1.020 1.0192 1.0184",
                      "1.018 1.016 1.016 1.016 1.014 1.014 1.014 1.010 1.010 1.010 1.010 1.014 1.014 1.014 1.014 "
                      "1.014 1.014 1.014 1.014 1.014"):  # fmt: skip
        bench.notebook.unlink(missing_ok=True)
        begin(bench)
        read(bench, gravities.split())
        out = bench.good("trend X --limit 0.9")
        assert "CANNOT TELL: readings in a row lie apart" in out and "added" in out, out
        assert "reading exclude" not in out and "? Yes" not in out, out
        assert "next: if something was added: areo addition add sugar X" in out, out
        assert "close nothing yet" in bench.good("bottle X")
    # Once it is noted, what is said begins there.
    bench.notebook.unlink()
    begin(bench)
    read(bench, "1.022 1.018 1.014 1.012 1.011 1.010".split())
    bench.good("addition add sugar X 60g --on 2026-05-08T12:00 --yes")
    read(bench, ["1.016", "1.016"], first=9)
    assert "no fall seen since the last addition" in state(bench), state(bench)


def pressures_agree(bench):
    """What fermenting everything may reach is never called out of reach."""
    begin(bench)
    read(bench, "1.020 1.016 1.012 1.010 1.008 1.006 1.006 1.006 1.006 1.006".split())
    for bar in range(2, 40):
        _, out, _ = bench.run(f"bottle X --rating {bar}bar")
        case = re.search(r"everything ferments .* ([0-9.]+) *$", out, re.MULTILINE)
        assert case, out
        upper = float(case[1])
        assert ("would be a fall to below" not in out) or upper < bar, (bar, out)
    assert "would be a fall to below" in out, out


def scatter_is_told(bench):
    """Where readings scatter far more than stated, somebody hears of it."""
    begin(bench)
    read(bench, "1.022 1.021 1.021 1.023 1.020 1.026 1.018 1.024 1.012 1.019".split())
    assert re.search(r"note: these readings scatter [0-9.]+ times", bench.good("trend X"))
    bench.notebook.unlink()
    begin(bench)
    read(bench, "1.022 1.021 1.020 1.019 1.018 1.017 1.016 1.015 1.014".split())
    assert "scatter" not in bench.good("trend X").replace("the scatter of its yield", "")


def all_fizzy(bench):
    """Bubbles in every sample: what to do is to degas one."""
    begin(bench)
    read(bench, "1.022 1.020 1.018".split(), more="--degassed no")
    bench.good("reading exclude 1 --reason lifted")
    bench.good("reading add X 1.022 --temp 20C --on 2026-05-03 --original --degassed no --yes")
    assert "next: degas a sample and read again" in bench.good("trend X")


def odd_ones_count_nowhere(bench):
    """A last reading that does not fit neither lowers a pressure nor tells guests less than there is."""
    begin(bench)
    fall = "1.020 1.016 1.012 1.010 1.008 1.006 1.006 1.006 1.006 1.006 1.006 1.006".split()
    read(bench, fall)
    before = bench.good("bottle X --rating 6bar")
    page = bench.folder / "page.html"
    bench.good(f"report X --audience --out {page}")
    guests = re.search(r"[\d.]+ ± [\d.]+ % vol", page.read_text())[0]
    read(bench, ["0.996"], days=[15])
    out = bench.good("bottle X --rating 6bar")
    everything = [x for x in before.splitlines() if "everything ferments" in x]
    assert everything and all(x in out for x in everything), out
    assert "nothing is concluded from it" in out, out
    page.unlink()
    bench.good(f"report X --audience --out {page}")
    assert guests in page.read_text(), guests
    assert re.search(r"[\d.]+ ± [\d.]+ % vol", page.read_text())[0] == guests


def compared_without_odd_ones(bench):
    """Days are compared by what goes with the other readings, and somebody hears of what does not."""
    begin(bench)
    read(bench, "1.020 1.016 1.012 1.0095 1.008 1.006 1.006 1.006 1.006 0.996".split())
    out = bench.good("compare X --on 2026-05-04 --on 2026-05-12")
    assert "2026-05-11 00:00 is stronger" in out, out
    assert re.search(r"note: reading 10 lies 0\.0\d+ below the others", " ".join(out.split())), out
    assert "nothing is concluded from it" in " ".join(out.split()), out


def rounding_is_compared(bench):
    """What is noted in whole divisions only is known less well, where it is compared."""
    begin(bench)
    wide = {}
    for original in ("1.022", "1.0225"):
        bench.notebook.unlink(missing_ok=True)
        begin(bench)
        bench.good(f"reading add X {original} --temp 20C --on 2026-05-03 --original")
        for bottle, gravity in (("A", "1.018"), ("B", "1.016")):
            bench.good(f"reading add X {gravity} --temp 20C --bottle {bottle} --on 2026-05-06")
        out = bench.good("compare X")
        by = re.search(r"is stronger by [0-9.]+ ± ([0-9.]+)", out)
        assert by, out
        wide[original] = float(by[1])
        assert ("read in whole divisions" in out) == (original == "1.022"), out
    # u² of the eye is a half of that of the rounding: together three times as much.
    assert 1.5 < wide["1.022"] / wide["1.0225"] < 1.9, wide


CHECKS = [
    falls_step_by_step, falls_in_whole_steps, slips_move_nothing, bubbles_decide_one_side,
    one_statement, what_would_decide, rest_takes_time, slips_at_entry, equal_is_stated,
    days_of_a_sensor, odd_ones_count_nowhere, added_and_not_noted, priming_waits, programs_hear_as_much,
    a_noted_slip_questions_nothing, one_rule_for_an_end, why_an_end_counts,
    all_fizzy, pressures_agree, scatter_is_told, compared_without_odd_ones, rounding_is_compared,
]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
