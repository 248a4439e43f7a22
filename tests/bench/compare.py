#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a row of `areo correct --csv` and `areo alcohol --csv` costs, as a multiple of what a C program
costs that computes the same and has no uncertainty (tests/bench/minimal). First the answers have to
agree. Then both run by turns; a ratio is one of medians of user time, without what it takes to start.

  compare.py --program PATH [--runs N] [--rows N]
"""

import argparse
import csv
import random
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
# Column of areo, column of the C program, and half a unit of the last place that the latter prints.
AGREE = {
    "correct": [
        ("correction", "correction", 0.5e-4),
        ("density_at_t_kg_m3", "density", 0.5e-2),
        ("sg_20_20", "sg", 0.5e-4),
    ],
    "alcohol": [
        ("alcohol_percent_vol", "vol", 0.5e-2),
        ("alcohol_percent_mass", "mass", 0.5e-2),
        ("original_extract_percent", "oe", 0.5e-2),
        ("real_extract_percent", "re", 0.5e-2),
        ("apparent_extract_percent", "ae", 0.5e-2),
        ("apparent_attenuation_percent", "aa", 0.05),
        ("real_attenuation_percent", "ra", 0.05),
        ("energy_kj_per_100_ml", "kj", 0.5),
        ("rule_of_thumb_percent_vol", "rule", 0.5e-2),
        ("sg_20_20_original", "sg_original", 0.5e-4),
        ("sg_20_20_present", "sg_present", 0.5e-4),
    ],
}


def rows(job, count):
    draw = random.Random(20)
    yield "reading,temperature" if job == "correct" else "original,present,temperature"
    for _ in range(count):
        t = f"{draw.uniform(10, 30):.1f}"
        if job == "correct":
            yield f"{draw.uniform(1.0, 1.1):.4f},{t}"
        else:
            yield f"{draw.uniform(1.04, 1.07):.4f},{draw.uniform(1.004, 1.024):.4f},{t}"


def user_seconds(command, given, output):
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    with given.open("rb") as stdin, output.open("wb") as stdout:
        subprocess.run(command, stdin=stdin, stdout=stdout, check=True)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before


def differing(job, areo, minimal):
    """Rows that do not say the same to the last place of the coarser one."""
    with areo.open(encoding="utf-8") as a, minimal.open(encoding="utf-8") as m:
        for number, (ours, theirs) in enumerate(zip(csv.DictReader(a), csv.DictReader(m), strict=True), 2):
            for column, other, half in AGREE[job]:
                # Six more digits than ± needs, as --full prints them.
                if not abs(float(ours[column]) - float(theirs[other])) <= half * 1.001:
                    yield f"row {number}: {column} {ours[column]}, {theirs[other]}"


def compare(job, program, folder, options):
    minimal = folder / job
    subprocess.run(
        ["cc", "-O3", HERE / "minimal" / f"{job}.c", "-o", minimal, "-lm"], check=True
    )
    ours = [program, job, "--csv", "-", "--unit", "temperature=C"]
    given, few = folder / "rows.csv", folder / "few.csv"
    outputs = folder / "areo.csv", folder / "minimal.csv"
    for path, count in (given, options.rows), (few, 1):
        path.write_text("\n".join(rows(job, count)) + "\n", encoding="utf-8")
    user_seconds([*ours, "--full"], given, outputs[0])
    user_seconds([minimal], given, outputs[1])
    bad = list(differing(job, *outputs))
    if bad:
        sys.exit(f"{job}: the answers differ in {len(bad)} values, first {bad[0]}")
    costs = [[], []]
    for _ in range(options.runs):
        for command, output, cost in zip((ours, [minimal]), outputs, costs, strict=True):
            start = user_seconds(command, few, output)
            cost.append(1e6 * (user_seconds(command, given, output) - start) / options.rows)
    ours_us, theirs_us = (statistics.median(c) for c in costs)
    spread = sorted(a / b for a, b in zip(*costs, strict=True))
    print(
        f"{job}: {ours_us:.2f} µs a row, in C {theirs_us:.2f} µs: {ours_us / theirs_us:.1f} times "
        f"({spread[0]:.1f} to {spread[-1]:.1f} in {options.runs} pairs)"
    )


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program", required=True, type=Path)
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--rows", type=int, default=20_000)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for job in AGREE:
            compare(job, options.program.resolve(), Path(folder), options)


if __name__ == "__main__":
    main()
