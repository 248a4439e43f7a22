#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a table costs by its size and its format: seconds, and per cell relative to the smallest.

  table_bench.py --program PATH [--runs N]

A million cells must take seconds, and a cell of a large table no longer than one of a small one.
"""

import argparse
import os
import statistics
import subprocess
import tempfile
import time
from pathlib import Path

COLUMNS = "SG15/15,SG60F,SGair,kg/m3,P,Bx,g/L,Be,Oe"  # nine, and the entry
STEPS = {10_000: "0.00012", 100_000: "0.000012", 1_000_000: "0.0000012"}


def seconds(program, folder, step, form):
    started = time.perf_counter()
    with open(os.devnull, "wb") as nowhere:
        subprocess.run(
            [program, "table", "conversion", "--from", "1.000", "--to", "1.120", "--step", step,
             "--columns", COLUMNS, "--format", form],
            check=True, stdout=nowhere, env=os.environ | {"HOME": folder})  # fmt: skip
    return time.perf_counter() - started


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--runs", type=int, default=3)
    args = parser.parse_args()
    program = str(Path(args.program).resolve())
    print(f"{'format':10}" + "".join(f"{cells:>12,} cells" for cells in STEPS) + "   a cell, large/small")
    with tempfile.TemporaryDirectory() as folder:
        for form in ("text", "csv", "markdown", "html"):
            times = {cells: [] for cells in STEPS}
            for _ in range(args.runs):
                for cells, step in STEPS.items():
                    times[cells].append(seconds(program, folder, step, form))
            median = {cells: statistics.median(t) for cells, t in times.items()}
            small, large = min(STEPS), max(STEPS)
            ratio = (median[large] / large) / (median[small] / small)
            print(f"{form:10}" + "".join(f"{median[c]:>16.2f} s" for c in STEPS) + f"   {ratio:.2f}")


if __name__ == "__main__":
    main()
