#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A notebook with a million readings: one batch is shown without reading the others; and one batch
with a hundred thousand, as a sensor writes them.

  many_readings.py --program PATH
  many_readings.py --selftest       the checks must fail on a program that does everything wrong

Not a matter of time, which is for tests/bench: what is looked at is memory, and bytes read.
"""

import os
import sqlite3
import subprocess
import sys

from robust import main

READINGS = 1_000_000
BATCHES = 1000
SHOWN = "PT-1"
SHOWN_READINGS = 100
# A sanitizer has a shadow of all memory and holds back what was freed: there the same program may
# take three times as much, which still tells one batch from a million readings.
SANITIZED = 3 if "AREO_SANITIZED" in os.environ else 1
MEMORY_KIB = 100 * 1000 * SANITIZED
# The batch's rows lie on pages of their own, 4 KiB each, as do their entries in indexes and the way
# down to them: some 4 pages a reading. A scan would read hundreds of MB.
READ_BYTES = SHOWN_READINGS * 20 * 4096
# Of a sensor; what a program keeps of each is some 1 kB, and 30 kB only of those that are shown.
SENSOR_READINGS = 100_000
SENSOR_KIB = 200 * 1000 * SANITIZED

# A batch falls from 1.060 on, an hour from reading to reading, and all batches go on at the same
# time, so that the readings of one are spread over the whole file. Every tenth is a repeat.
FILL = """
INSERT INTO reading
WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i + 1 < :readings),
row AS (SELECT i + 1 AS id, i / :batches AS step, i % :batches + 1 AS owner FROM n)
SELECT id, CASE WHEN owner = 1 AND step % (:steps / :shown) > 0 THEN 2 ELSE owner END, '',
  CASE WHEN owner > 1 AND step % 10 = 9 THEN id - :batches ELSE id END,
  CASE step WHEN 0 THEN 'original' ELSE 'present' END,
  strftime('%Y-%m-%dT%H:%M:%S+00:00', :start + :seconds * step, 'unixepoch'), :start + :seconds * step,
  strftime('%Y-%m-%dT%H:%M:%S+00:00', :start + :seconds * step, 'unixepoch'), :start + :seconds * step,
  1, printf('%.3f', 1.060 - 0.050 * step / :steps), round(1.060 - 0.050 * step / :steps, 3), 0,
  '21C', 21, 0.5, NULL, 'level', NULL, 'Kim', '', NULL, ''
FROM row
"""
START = 1767258000  # 2026-01-01T09:00Z
BATCH = """
INSERT INTO batch SELECT :id, :name, drink, culture, vessel, volume_typed, volume_l, extract,
liquid, started_at, started_at_s, note FROM batch WHERE id = 1
"""


def fill(bench, readings=READINGS, batches=BATCHES, shown=SHOWN_READINGS, seconds=3600):
    """Tables made by areo itself, rows put into them at once."""
    bench.good("instrument add stem-1 --from 0.990 --to 1.100 --division 0.002")
    bench.good(f"batch add {SHOWN} --volume 5L --on 2026-01-01T09:00Z")
    with sqlite3.connect(bench.notebook) as db:
        for number in range(2, batches + 1):
            db.execute(BATCH, {"id": number, "name": f"PT-{number}"})
        db.execute(FILL, {"readings": readings, "batches": batches, "start": START,
                          "steps": readings // batches, "shown": shown, "seconds": seconds})  # fmt: skip
    db.close()


def measured(bench, command):
    """(standard output, bytes read, peak memory in KiB)"""
    process = bench.start(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE)
    out = process.stdout.read().decode()
    err = process.stderr.read().decode()
    process.stdout.close()
    process.stderr.close()
    os.waitid(os.P_PID, process.pid, os.WEXITED | os.WNOWAIT)  # its account stays until reaped
    with open(f"/proc/{process.pid}/io") as f:
        read = int(f.readline().split()[1])
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, f"`{command}` exits {process.returncode}: {err}"
    return out, read, usage.ru_maxrss


def one_batch_of_a_million_readings(bench):
    fill(bench)
    assert bench.rows("reading") == READINGS
    before = bench.notebook.stat().st_size
    for command in (f"batch show {SHOWN} --all", f"batch show {SHOWN} --json", f"trend {SHOWN} --all",
                    f"reading list {SHOWN}"):  # fmt: skip
        out, read, memory = measured(bench, command)
        print(f"{command}: {read / 1e6:.1f} of {before / 1e6:.0f} MB read, {memory / 1e3:.0f} MB")
        assert len(out.splitlines()) >= SHOWN_READINGS, out
        assert read < READ_BYTES, f"`{command}` reads {read} bytes"
        assert memory < MEMORY_KIB, f"`{command}` needs {memory} KiB"
    out, _, memory = measured(bench, "batch list")
    assert len(out.splitlines()) == BATCHES, out
    assert f"PT-3: yeast, 5L, since 2026-01-01; {READINGS // BATCHES} readings" in out, out[:300]
    assert memory < MEMORY_KIB, f"`batch list` needs {memory} KiB"
    code, _, err = bench.run(f"reading add {SHOWN} 1.010 --temp 20C")
    assert code == 0, err
    assert bench.rows("reading") == READINGS + 1


def one_batch_of_a_sensor(bench):
    fill(bench, SENSOR_READINGS, 1, SENSOR_READINGS, seconds=900)
    page = bench.folder / "page.html"
    for command in (f"trend {SHOWN}", f"trend {SHOWN} --limit 1", f"batch show {SHOWN}", f"bottle {SHOWN}",
                    f"compare {SHOWN} --on 2026-02-01 --on 2026-03-01", f"report {SHOWN} --out {page}"):  # fmt: skip
        out, _, memory = measured(bench, command)
        print(f"{command}: {memory / 1e3:.0f} MB")
        assert memory < SENSOR_KIB, f"`{command}` needs {memory} KiB"
        if command.startswith(("trend", "batch")):
            assert "more readings of these days are not shown" in out, out[-500:]
            assert "2026-02-01 23:45" in out, out[:500]  # the last of its day
    days = page.read_text().count("23:45")
    assert days > SENSOR_READINGS / 96 * 0.8, days


def every_reading(bench):
    """What a list for people leaves out programs get, and people who ask for it."""
    readings = 2000
    fill(bench, readings, 1, readings)
    assert len(bench.good(f"trend {SHOWN} --json").splitlines()) == readings + 1
    assert bench.good(f"batch show {SHOWN} --json").count('"indications"') == readings
    for command in (f"trend {SHOWN} --all", f"batch show {SHOWN} --all"):
        assert len(bench.good(command).splitlines()) > readings
    state = [x for x in bench.good(f"trend {SHOWN} --all").splitlines() if x.startswith("state:")]
    assert state and state[0] in bench.good(f"trend {SHOWN}"), state


CHECKS = [one_batch_of_a_million_readings, one_batch_of_a_sensor, every_reading]

if __name__ == "__main__":
    sys.exit(main(CHECKS))
