#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What sessions cannot show: full disks, closed pipes, memory, and files that stay as they were.

  robust.py --program PATH
  robust.py --selftest       the checks must fail on a program that does everything wrong
"""

import argparse
import json
import os
import signal
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

ROWS = 200_000
# What a program of the same memory may take more with many rows than with few: less than half of
# their text. A sanitizer holds back some of what was freed.
GROWTH_KIB = 2048 * (3 if "AREO_SANITIZED" in os.environ else 1)
STEM = "instrument add stem-1 --from 0.990 --to 1.100 --division 0.002"
WATER = "calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z"


class Bench:
    def __init__(self, program, folder):
        self.program, self.folder = program, Path(folder)
        self.notebook = self.folder / "notebook.db"
        sanitizer = os.environ.get("ASAN_OPTIONS", "")
        self.environment = os.environ | {
            "AREO_NOTEBOOK": str(self.notebook),
            "HOME": folder,
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
            "COLUMNS": "2000",  # what is said, not where its lines break: that is for widths.py
            # Freed memory that a sanitizer keeps for itself is no leak of the program.
            "ASAN_OPTIONS": f"{sanitizer}:quarantine_size_mb=1",
        }

    def start(self, command, **more):
        return subprocess.Popen(
            [self.program, *(command.split() if isinstance(command, str) else command)],
            env=self.environment, cwd=self.folder, stderr=subprocess.PIPE, **more)  # fmt: skip

    def run(self, command, given=b"", stdout=subprocess.PIPE):
        """(exit code, standard output, standard error)"""
        process = self.start(command, stdin=subprocess.PIPE, stdout=stdout)
        out, err = process.communicate(given, timeout=300)
        return process.returncode, (out or b"").decode(), err.decode()

    def good(self, command):
        code, out, err = self.run(command)
        assert code == 0, f"`{command}` exits {code}: {err}"
        return out

    def rows(self, table):
        with sqlite3.connect(self.notebook) as db:
            return db.execute(f"SELECT count(*) FROM {table}").fetchone()[0]


def full_disk(bench):
    """A result that does not fit on the disk is a failure, not a success."""
    for command, given in [
        ("convert 1.048", b""),
        ("correct 1.048 --temp 27C --json", b""),
        ("alcohol 1.048 1.009 --temp 20C", b""),
        ("solution sugar --target 1.040 --total 500g", b""),
        ("table conversion", b""),
        ("--help", b""),
        ("--version", b""),
        ("convert --csv -", b"value\n" + b"1.048\n" * 1000),
    ]:
        with open("/dev/full", "wb") as full:
            code, _, err = bench.run(command, given, full)
        assert code == 4, f"`{command}` on a full disk exits {code}"
        assert "the output could not be written" in err and "hint" in err, err


def closed_pipe(bench):
    """A reader that has seen enough ends the program without a crash."""
    for ignored in (False, True):  # whether writing raises the signal, or fails
        process = bench.start(
            "table conversion --from 0P --to 60P --step 0.005 --csv",
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, restore_signals=not ignored)  # fmt: skip
        process.stdout.readline()
        process.stdout.close()
        err = process.stderr.read().decode()
        code = process.wait(timeout=300)
        expected = 4 if ignored else -signal.SIGPIPE
        assert code == expected, f"exits {code}, expected {expected}"
        assert "could not be written" in err if ignored else not err, err


def peak_kib(bench, rows):
    file = bench.folder / "rows.csv"
    with file.open("w") as f:
        f.write("value,memo\n")
        f.writelines(f"1.{i % 100:03},bottle {i}\n" for i in range(rows))
    process = bench.start(
        f"convert --csv {file} --to P", stdin=subprocess.DEVNULL, stdout=subprocess.PIPE)  # fmt: skip
    lines = sum(1 for _ in process.stdout)
    process.stdout.close()
    process.stderr.close()
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, f"{rows} rows: exits {process.returncode}"
    assert lines == rows + 1, f"{rows} rows in, {lines - 1} out"
    return usage.ru_maxrss


def constant_memory(bench):
    """Two hundred times the rows in the same memory: they would be 5 MB of text alone."""
    few, many = peak_kib(bench, ROWS // 200), peak_kib(bench, ROWS)
    assert many < few + GROWTH_KIB, f"{few} KiB grow to {many} KiB"


def same_error_once(bench):
    """A column without a unit: every row is told in its place, the reason once, in the same memory."""
    peaks = []
    for rows in (ROWS // 200, ROWS // 2):
        file = bench.folder / "bare.csv"
        file.write_text("reading,temp\n" + "1.020,30\n" * rows)
        process = bench.start(f"correct --csv {file}", stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE)  # fmt: skip
        bad = sum(b"a temperature needs its unit" in line for line in process.stdout)
        err = process.stderr.read().decode().splitlines()
        process.stdout.close()
        process.stderr.close()
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        assert process.returncode == 1, f"{rows} bad rows: exits {process.returncode}"
        assert bad == rows, f"{rows} bad rows in, {bad} out"
        said = [line for line in err if line.startswith("areo: ")]
        assert len(said) == 1 and said[0].endswith(
            f":2: a temperature needs its unit, and {rows - 1} more lines: 3 to {rows + 1}"), err[:9]
        peaks.append(usage.ru_maxrss)
    assert peaks[1] < peaks[0] + GROWTH_KIB, f"{peaks[0]} KiB grow to {peaks[1]} KiB"


def refused_check_leaves_nothing(bench):
    bench.good(STEM)
    for command, code in [
        ("calibrate water stem-1 1.150 21C", 3),
        ("calibrate water stem-1 1.001 60C", 3),
        ("calibrate water stem-1 1.5 21C", 3),
        ("calibrate water stem-1 1.001 21C --on 2999-01-01", 3),
        ("calibrate sugar stem-1 1.040 21C --solute 0g --water 448g", 3),
        ("calibrate fit stem-1", 3),
        ("calibrate certificate stem-1 1.040 --correction 0.001 --expanded 0", 3),
        ("instrument add stem-1", 4),
        ("instrument add stem-2 --from 1.1 --to 1.0", 3),
    ]:
        got, _, err = bench.run(command)
        assert got == code and err.startswith("areo: error: "), f"`{command}` exits {got}: {err}"
    for table, count in [("instrument", 1), ("check_reading", 0), ("calibration", 0)]:
        assert bench.rows(table) == count, f"{bench.rows(table)} rows in {table}"


def refused_instrument_makes_no_file(bench):
    for command in ("instrument add stem-1 --scale furlong", "instrument add stem-1 --tolerance 0",
                    "instrument list", "instrument show stem-1", "correct 1.048 --instrument x",
                    WATER, "calibrate fit stem-1"):  # fmt: skip
        bench.run(command)
        assert not bench.notebook.exists(), f"`{command}` makes a notebook"


def keeps_what_was_typed(bench):
    bench.good(STEM)
    bench.good(["calibrate", "water", "stem-1", "1,001", "70 °F", "--note", "=cmd", "--on",
                "2026-03-01T10:00+01:00"])  # fmt: skip
    with sqlite3.connect(bench.notebook) as db:
        row = db.execute("SELECT reading_typed, reading, temperature_typed, note, made_at "
                         "FROM check_reading").fetchone()  # fmt: skip
    assert row == ("1,001", 1.001, "70 °F", "=cmd", "2026-03-01T10:00:00+01:00"), row


def show_instrument(bench):
    """Shows the day it was added on, so it is no session."""
    bench.good(STEM + " --note second-hand")
    bench.good(WATER)
    bench.good("calibrate fit stem-1")
    lines = bench.good("instrument show stem-1").splitlines()
    assert lines[0] == "stem-1: hydrometer, SG 20/20 °C, 0.990 to 1.100, division 0.002", lines
    assert "  correction now: 1 check, in force from 2026-03-01" in lines, lines
    assert "  note: second-hand" in lines, lines
    shown = json.loads(bench.good("instrument show stem-1 --json"))
    listed = json.loads(bench.good("instrument list --json"))
    assert shown == listed, (shown, listed)
    del shown["added_at"]
    expected = {
        "name": "stem-1",
        "description": "hydrometer, SG 20/20 °C, 0.990 to 1.100, division 0.002",
        "note": "second-hand",
        "kind": "hydrometer",
        "scale": "sg_20_20",
        "from": 0.99,
        "to": 1.1,
        "division": 0.002,
        "glass_expansion_per_c": 2.5e-05,
        "tolerance": 0.002,
    }
    assert {k: shown.get(k) for k in expected} == expected, shown


def hostile_names(bench):
    """Control characters come out as a visible mark, in text and in JSON."""
    name = "\x1b[2J\x07\u009b31m"
    bench.good(["instrument", "add", name])
    for command in (["instrument", "list"], ["instrument", "show", name],
                    ["correct", "1.048", "--temp", "20C", "--instrument", name],
                    ["calibrate", "show", name], ["instrument", "show", name + "x"]):  # fmt: skip
        for extra in ([], ["--json"]):
            _, out, err = bench.run(command + extra)
            for bad in "\x1b\x07\x9b":
                assert bad not in out + err, f"{command + extra}: {out + err!r}"


CHECKS = [full_disk, closed_pipe, constant_memory, same_error_once, refused_check_leaves_nothing,
          refused_instrument_makes_no_file, keeps_what_was_typed, show_instrument,
          hostile_names]  # fmt: skip


def run(program, checks):
    """Names of the failed checks."""
    failed = []
    for check in checks:
        with tempfile.TemporaryDirectory(prefix="areo-robust-") as folder:
            try:
                check(Bench(program, folder))
            except (AssertionError, subprocess.TimeoutExpired, sqlite3.Error, ValueError,
                    OSError) as e:
                failed.append(check.__name__)
                print(f"{check.__name__}: {e}")
    return failed


WRONG = """#!/usr/bin/env python3
# Succeeds at everything, keeps every row in memory, writes where it should not.
import os, sys
open(os.environ["AREO_NOTEBOOK"], "a").close()
if "--csv" in sys.argv and sys.argv[1] == "convert":
    name = sys.argv[sys.argv.index("--csv") + 1]
    rows = list(sys.stdin if name == "-" else open(name))
    sys.stdout.write("".join(rows))
else:
    print(" ".join(sys.argv))
try:
    sys.stdout.flush()
except OSError:
    os._exit(0)
"""


def selftest(checks, wrong):
    with tempfile.TemporaryDirectory() as folder:
        program = Path(folder) / "program"
        program.write_text(wrong)
        program.chmod(0o755)
        missed = {c.__name__ for c in checks} - set(run(str(program), checks))
    print(f"selftest: {'blind: ' + ', '.join(sorted(missed)) if missed else 'ok'}")
    return len(missed)


def main(checks, wrong=WRONG):
    """`wrong` is the program that the checks must fail on; in it @program@ is the one to be tested."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--program")
    parser.add_argument("--selftest", action="store_true")
    args = parser.parse_args()
    if args.selftest:
        return 1 if selftest(checks, wrong.replace("@program@", os.path.realpath(args.program or ""))) else 0
    if not args.program:
        parser.error("--program is needed")
    failed = run(os.path.realpath(args.program), checks)
    print(f"{len(checks)} checks, {len(failed)} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(CHECKS))
