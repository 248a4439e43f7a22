#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the second face prints is what areo prints, byte for byte.

  compare.py --program AREO --face SECOND_FACE
  compare.py --selftest       every comparison must fail where the second face prints something else
"""

import argparse
import datetime
import os
import subprocess
import sys
import tempfile
from pathlib import Path

# Invented, and long past.
NOTEBOOK = """instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate fit stem-1
batch add PT-1 --drink pear --vessel jar --volume 5L --on 2026-03-02
reading add PT-1 1.048 --temp 21C --original --on 2026-03-02T10:00
reading add PT-1 1.037 --temp 21C --on 2026-03-05T10:00
reading add PT-1 1.028 --temp 24C --on 2026-03-06T10:00
reading add PT-1 1.0195 --temp 21C --on 2026-03-07T10:00
reading add PT-1 1.0145 --temp 21C --on 2026-03-08T10:00
batch add PT-2 --drink pear --volume 5L --on 2026-03-02
reading add PT-2 1.048 --temp 21C --original --on 2026-03-02T10:00
reading add PT-2 1.012 --temp 21C --bottle A --on 2026-03-09T10:00
reading add PT-2 1.008 --temp 21C --bottle B --on 2026-03-09T10:05"""

# What the second face is asked; what areo is asked for the same. A file that areo writes is read.
PAGE = "page.html"
CASES = [
    ("correct stem-1 1.048 27C", ["correct 1.048 --temp 27C --instrument stem-1 --json"]),
    ("alcohol stem-1 1.048 1.009 20C", ["alcohol 1.048 1.009 --temp 20C --instrument stem-1 --json"]),
    # A bound only; then a strength that is sampled though nobody asked.
    ("alcohol stem-1 1.048 1.047 20C", ["alcohol 1.048 1.047 --temp 20C --instrument stem-1 --json"]),
    ("alcohol stem-1 1.006 1.000 4C", ["alcohol 1.006 1.000 --temp 4C --instrument stem-1 --json"]),
    ("card stem-1 2026-04-01 html", ["table card stem-1 --at 2026-04-01 --format html"]),
    ("card stem-1 2026-04-01 json", ["table card stem-1 --at 2026-04-01 --json"]),
    ("report PT-1 0.5 html", [f"report PT-1 --limit 0.5 --out {PAGE}"]),
    # What a page tells of each bottle is what areo trend tells programs.
    ("report PT-1 0.5 json", ["trend PT-1 --limit 0.5 --json"]),
    ("report PT-2 5 html", [f"report PT-2 --limit 5 --out {PAGE}"]),
    ("report PT-2 5 json", [f"trend PT-2 --bottle {b} --limit 5 --json" for b in "AB"]),
    # Refusals.
    ("correct stem-2 1.048 27C", ["correct 1.048 --temp 27C --instrument stem-2 --json"]),
    ("card stem-1 2026-02-30 json", ["table card stem-1 --at 2026-02-30 --json"]),
]


class Bench:
    def __init__(self, program, face, folder):
        self.program, self.face, self.folder = program, face, Path(folder)

    def call(self, words):
        """(whether it succeeded, standard output, standard error)"""
        environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC"}
        environment |= {k: v for k, v in os.environ.items() if k.endswith("SAN_OPTIONS")}
        environment["AREO_NOTEBOOK"] = str(self.folder / "notebook.db")
        done = subprocess.run(words, cwd=self.folder, env=environment, capture_output=True, timeout=120)
        return done.returncode == 0, done.stdout, done.stderr

    def by_program(self, asked):
        parts = [self.call([self.program, *words.split()]) for words in asked]
        page = self.folder / PAGE
        if page.is_file():
            parts = [(parts[0][0], page.read_bytes(), parts[0][2])]
            page.unlink()
        return all(p[0] for p in parts), b"".join(p[1] for p in parts), b"".join(p[2] for p in parts)

    def by_face(self, asked):
        return self.call([self.face, str(self.folder / "notebook.db"), *asked.split()])

    def same(self, case):
        """Empty, or how both differ."""
        asked, of_program = case
        # A page says the day on which it was made: at midnight once more.
        while True:
            day = datetime.datetime.now(datetime.timezone.utc).date()
            want, got = self.by_program(of_program), self.by_face(asked)
            if day == datetime.datetime.now(datetime.timezone.utc).date():
                break
        if not want[1] and not want[2]:
            return "areo prints nothing"
        for what, a, b in zip(("success", "standard output", "standard error"), want, got):
            if a != b:
                return f"{what} of areo:\n  {a!r:.2000}\nof the second face:\n  {b!r:.2000}"
        return ""


def run(program, face):
    """The cases that differ, with how."""
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(program, face, folder)
        for words in NOTEBOOK.splitlines():
            done, _, err = bench.call([program, *words.split()])
            if not done:
                sys.exit(f"{words}: {err.decode(errors='replace')}")
        return [(case[0], difference) for case in CASES if (difference := bench.same(case))]


def selftest():
    """A face that prints a byte more, and one that prints nothing."""
    with tempfile.TemporaryDirectory() as folder:
        scripts = {
            "program": f'case "$*" in *--out*) echo page > {PAGE};; *stem-2*) echo no >&2; exit 3;; esac\n'
            "echo answer",
            "more": "echo answer; echo",
            "nothing": "",
        }
        paths = {}
        for name, text in scripts.items():
            paths[name] = Path(folder, name)
            paths[name].write_text(f"#!/bin/sh\n{text}\n", encoding="utf-8")
            paths[name].chmod(0o755)
        missed = 0
        for name in ("more", "nothing"):
            found = {asked for asked, _ in run(paths["program"], paths[name])}
            for asked, _ in CASES:
                if asked not in found:
                    missed += 1
                    print(f"selftest: `{asked}` takes a face that prints {name} for areo")
        return missed


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program")
    parser.add_argument("--face")
    parser.add_argument("--selftest", action="store_true")
    args = parser.parse_args()
    if args.selftest:
        return 1 if selftest() else 0
    if not args.program or not args.face:
        parser.error("--program and --face are needed")
    different = run(os.path.realpath(args.program), os.path.realpath(args.face))
    for asked, difference in different:
        print(f"{asked}: {difference}")
    print(f"{len(CASES)} answers compared, {len(different)} differ")
    return 1 if different else 0


if __name__ == "__main__":
    sys.exit(main())
