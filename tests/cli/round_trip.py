#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An export brought into an empty notebook and exported again is the same file, byte for byte.

  round_trip.py --program PATH
  round_trip.py --selftest       the comparison must see a changed byte
"""

import argparse
import filecmp
import os
import subprocess
import sys
import tempfile
from pathlib import Path

# What a spreadsheet would run, a terminal obey, SQL and HTML end, or a file not hold.
HOSTILE = [
    "=cmd|' /C calc'!A0", "+1", "-1", "@x", "'quoted", "back\\slash \\x41", 'a,"b";c', "tab\there",
    "line\nend\r\n", "\x1b[31mred\x07", "\x7f", "'; DROP TABLE reading; --", "<script>x</script>",
    "é水🍐", b"\xff\xfe\xc3", b"\xc2\x85", "# no comment", " ", "n" * 100_000,
]  # fmt: skip


class Notebook:
    def __init__(self, program, folder, name):
        self.program, self.folder, self.file = program, Path(folder), f"{name}.db"

    def run(self, *words):
        done = subprocess.run(
            [self.program, "--notebook", self.file, *words],
            cwd=self.folder, env=os.environ | {"TZ": "UTC", "LC_ALL": "C.UTF-8"},
            capture_output=True, timeout=120)  # fmt: skip
        assert done.returncode == 0, f"{words} exits {done.returncode}: {done.stderr.decode()}"
        return done.stdout


def fill(book):
    """One of everything that the program can note."""
    book.run("instrument", "add", "stem-1", "--from", "0.990", "--to", "1.100", "--meniscus", "0.002")
    book.run("instrument", "add", "prism-1", "--kind", "refractometer", "--atc")
    book.run("instrument", "add", "probe-1", "--kind", "thermometer", "--division", "0.1C")
    book.run("calibrate", "water", "stem-1", "1.001", "21C", "--on", "2026-03-01", "--top")
    book.run("calibrate", "sugar", "stem-1", "1.041", "21C", "--solute", "50g", "--water", "450g",
             "--on", "2026-03-01")  # fmt: skip
    book.run("calibrate", "certificate", "stem-1", "1.090", "--correction", "-0.0004",
             "--expanded", "0.0003", "--on", "2026-03-01")  # fmt: skip
    book.run("calibrate", "boiling", "probe-1", "99.0C", "--altitude", "300m", "--on", "2026-03-01")
    book.run("calibrate", "fit", "stem-1")
    book.run("liquid", "pair", "juice", "12.6Bx", "1.050", "--temp", "20C", "--instrument", "prism-1",
             "--hydrometer", "stem-1", "--on", "2026-03-01")  # fmt: skip
    book.run("liquid", "leave-out", "juice", "1", "--reason", "cloudy")
    for number, text in enumerate(HOSTILE):
        book.run("batch", "add", f"--note={os.fsdecode(text)}" if isinstance(text, bytes)
                 else f"--note={text}", f"--vessel={os.fsdecode(text)}", "--volume", "5L",
                 "--on", "2026-03-02", "--", os.fsdecode(text).lstrip("-") + str(number))  # fmt: skip
    book.run("batch", "add", "PT-1", "--culture", "mixed", "--volume", "5L", "--on", "2026-03-02")
    book.run("reading", "add", "PT-1", "1.048", "1.047", "--temp", "20C", "--thermometer", "probe-1",
             "--original", "--on", "2026-03-02T10:00+01:00")  # fmt: skip
    for text in HOSTILE:
        book.run("reading", "add", "PT-1", "1.03", f"--note={os.fsdecode(text)}",
                 f"--by={os.fsdecode(text)}", f"--bottle={os.fsdecode(text)}",
                 "--on", "2026-03-05T18:00", "--degassed", "no", "--top")  # fmt: skip
    book.run("reading", "amend", "3", "1.031", "--reason", "=1+1")
    book.run("reading", "exclude", "4", "--reason", "bubbles")
    book.run("reading", "include", "4", "--reason", "none")
    book.run("addition", "add", "juice", "PT-1", "0.5L", "12.5Bx", "--into", "4.6L",
             "--on", "2026-03-06")  # fmt: skip
    book.run("addition", "exclude", "1", "--reason", "other jar")
    book.run("batch", "amend", "PT-1", "--volume", "4.6L", "--reason", "measured")
    book.run("batch", "close", "PT-1", "--note", "drunk")


def same(a, b):
    """Files, or folders of files, byte by byte."""
    if a.is_file():
        return b.is_file() and filecmp.cmp(a, b, shallow=False)
    names = sorted(p.name for p in a.iterdir())
    return names == sorted(p.name for p in b.iterdir()) and all(same(a / n, b / n) for n in names)


def check(program):
    with tempfile.TemporaryDirectory() as folder:
        book = Notebook(program, folder, "first")
        fill(book)
        book.run("export", "first.jsonl")
        book.run("export", "--csv", "first-csv")
        failed = 0
        for given in ("first.jsonl", "first-csv"):
            other = Notebook(program, folder, f"from-{given}")
            other.run("import", given)
            for name, words in ((f"{given}-again.jsonl", ()), (f"{given}-again-csv", ("--csv",))):
                other.run("export", *words, name)
                first = "first-csv" if words else "first.jsonl"
                if not same(book.folder / first, book.folder / name):
                    failed += 1
                    print(f"{first} -> import {given} -> export: {name} differs")
        for text in (book.folder / "first-csv" / "reading.csv").read_bytes().splitlines():
            if any(c < 0x20 or c == 0x7F for c in text):
                failed += 1
                print("reading.csv holds a control character:", text[:60])
    print(f"round trip: {failed} failed")
    return failed


def selftest():
    with tempfile.TemporaryDirectory() as folder:
        a, b = Path(folder) / "a", Path(folder) / "b"
        for one in (a, b):
            one.mkdir()
            (one / "x.csv").write_bytes(b"id\n1\n")
        good = same(a, b)
        (b / "x.csv").write_bytes(b"id\n2\n")
        changed = not same(a, b)
        (b / "x.csv").write_bytes(b"id\n1\n")
        (b / "y.csv").write_bytes(b"")
        more = not same(a, b)
    wrong = [name for name, ok in (("good", good), ("changed", changed), ("more", more)) if not ok]
    print(f"selftest: {'wrong about ' + ', '.join(wrong) if wrong else 'ok'}")
    return len(wrong)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program")
    parser.add_argument("--selftest", action="store_true")
    args = parser.parse_args()
    if args.selftest:
        return 1 if selftest() else 0
    if not args.program:
        parser.error("--program is needed")
    return 1 if check(os.path.realpath(args.program)) else 0


if __name__ == "__main__":
    sys.exit(main())
