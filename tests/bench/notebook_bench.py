#!/usr/bin/env python3
"""What a million readings cost whoever looks at one batch: runs with the big notebook and with one
that holds only this batch, by turns; the last column is big/small of the medians.

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


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--runs", type=int, default=15)
    args = parser.parse_args()
    program = str(Path(args.program).resolve())
    with tempfile.TemporaryDirectory() as big, tempfile.TemporaryDirectory() as small:
        benches = [Bench(program, big), Bench(program, small)]
        fill(benches[0])
        shutil.copy(benches[0].notebook, benches[1].notebook)
        with contextlib.closing(sqlite3.connect(benches[1].notebook)) as db:
            db.executescript(ONLY_ONE)
        print(f"{'command':24} {'big, ms':>8} {'small, ms':>10} {'MB read':>8} {'peak MB':>8} ratio")
        for command in (f"batch show {SHOWN}", f"batch show {SHOWN} --json",
                        f"trend {SHOWN}", f"reading list {SHOWN}", "batch list"):  # fmt: skip
            times = [[], []]
            for _ in range(args.runs):
                for bench, own in zip(benches, times):
                    started = time.perf_counter()
                    _, read, memory = measured(bench, command)
                    own.append(1000 * (time.perf_counter() - started))
                    if bench is benches[0]:
                        cost = read / 1e6, memory / 1e3
            b, s = map(statistics.median, times)
            print(f"{command:24} {b:8.1f} {s:10.1f} {cost[0]:8.1f} {cost[1]:8.1f} {b / s:5.2f}")


if __name__ == "__main__":
    main()
