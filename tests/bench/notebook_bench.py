#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a million readings cost whoever looks at one batch: runs with the big notebook and with one
that holds only this batch, by turns; the last column is big/small of the medians. Then what a reading
of a sensor costs among 100 000 of one batch, as a multiple of one among 3 000.

  notebook_bench.py --program PATH [--runs N]
"""

import argparse
import contextlib
import shutil
import sqlite3
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "cli"))
from many_readings import SHOWN, fill, measured  # noqa: E402
from robust import Bench  # noqa: E402

# Triggers keep readings from being deleted, so the small notebook is a copy made without them.
ONLY_ONE = """
DROP TRIGGER reading_is_never_deleted; DROP TRIGGER batch_is_never_deleted;
DELETE FROM reading WHERE batch <> 1; DELETE FROM batch WHERE id <> 1; VACUUM;
"""


MANY, FEW = 100_000, 3_000


def by_turns(benches, command, runs):
    """Milliseconds of each run on each bench, and what the last run on the first one took."""
    times = [[] for _ in benches]
    for _ in range(runs):
        for bench, own in zip(benches, times):
            started = time.perf_counter()
            _, read, memory = measured(bench, command)
            own.append(1000 * (time.perf_counter() - started))
            if bench is benches[0]:
                cost = read / 1e6, memory / 1e3
    return [statistics.median(own) for own in times], cost


def big_and_small(program, runs):
    with tempfile.TemporaryDirectory() as big, tempfile.TemporaryDirectory() as small:
        benches = [Bench(program, big), Bench(program, small)]
        fill(benches[0])
        shutil.copy(benches[0].notebook, benches[1].notebook)
        with contextlib.closing(sqlite3.connect(benches[1].notebook)) as db:
            db.executescript(ONLY_ONE)
        print(f"{'command':24} {'big, ms':>8} {'small, ms':>10} {'MB read':>8} {'peak MB':>8} ratio")
        for command in (f"batch show {SHOWN}", f"batch show {SHOWN} --json",
                        f"trend {SHOWN}", f"reading list {SHOWN}", "batch list"):  # fmt: skip
            (b, s), cost = by_turns(benches, command, runs)
            print(f"{command:24} {b:8.1f} {s:10.1f} {cost[0]:8.1f} {cost[1]:8.1f} {b / s:5.2f}")


def many_and_few(program, runs):
    with tempfile.TemporaryDirectory() as many, tempfile.TemporaryDirectory() as few:
        benches = [Bench(program, many), Bench(program, few)]
        for bench, readings in zip(benches, (MANY, FEW)):
            fill(bench, readings, 1, readings, seconds=900)
        print(f"\n{'command':24} {'many, ms':>8} {'few, ms':>10} {'peak MB':>8} a reading")
        for command in (f"trend {SHOWN}", f"trend {SHOWN} --limit 1", f"batch show {SHOWN}",
                        f"bottle {SHOWN}"):  # fmt: skip
            (m, f), cost = by_turns(benches, command, runs)
            print(f"{command:24} {m:8.1f} {f:10.1f} {cost[1]:8.1f} {m / MANY / (f / FEW):8.2f}")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--runs", type=int, default=15)
    args = parser.parse_args()
    program = str(Path(args.program).resolve())
    big_and_small(program, args.runs)
    many_and_few(program, max(args.runs // 3, 1))


if __name__ == "__main__":
    main()
