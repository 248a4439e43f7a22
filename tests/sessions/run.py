#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs sessions with the program and compares what it prints byte for byte.

  run.py --program PATH [--update] [--keep FOLDER] [FILE | FOLDER ...]
                                                           default: all sessions beside this file

What a session is says form.py. The path of the directory is printed as TMP, version and digest of
the tables as VERSION and DIGEST, the style of a page as STYLE: they change without a result that
does. --update writes what is printed into the sessions instead of comparing it. --keep leaves in
FOLDER what set-ups left, for further runs with the same program, and takes it from there; a set-up
that is run as a session is put there anew.
"""

import argparse
import contextlib
import difflib
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from form import Malformed, block, expected, parse, session

HERE = Path(__file__).resolve().parent
TIMEOUT_S = 120


def environment(folder):
    # LD_PRELOAD: to run all of them with a clock that is ahead.
    kept = {k: v for k, v in os.environ.items()
            if k in ("PATH", "LD_PRELOAD") or k.endswith("SAN_OPTIONS")}  # fmt: skip
    return kept | {
        "HOME": folder,
        "XDG_DATA_HOME": f"{folder}/data",
        "AREO_NOTEBOOK": f"{folder}/notebook.db",
        "LC_ALL": "C.UTF-8",
        "NO_COLOR": "1",
        "TZ": "UTC",
    }


def masked(out, folder):
    """What says nothing about the case, by its name; how pages look is for tests/browser."""
    out = out.replace(folder.encode(), b"TMP")
    out = re.sub(rb"(?s)<style>.*?@media print.*?</style>", b"<style>STYLE</style>", out)
    out = re.sub(rb"areo \S+ \(tables [0-9a-f]+\)", b"areo VERSION (tables DIGEST)", out)
    return re.sub(rb'"areo":"[^"]+","tables":"[0-9a-f]+"', b'"areo":"VERSION","tables":"DIGEST"', out)


def printed(data, folder):
    text = masked(data, folder).decode(errors="surrogateescape")
    if text and not text.endswith("\n"):
        text += "\n\\ no end of line\n"
    return text


def cat(words, given, folder):
    """(status, output)"""
    if len(words) == 3 and words[1] == ">":
        path = Path(folder, words[2])
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(given)
        return 0, b""
    if len(words) != 2:
        raise Malformed("`cat` has one file")
    try:
        return 0, Path(folder, words[1]).read_bytes()
    except OSError as e:
        raise Malformed(f"{words[1]}: {e.strerror}") from e


def play(program, step, folder):
    """(status, standard output, standard error)"""
    if step.words[0] == "cat":
        status, out = cat(step.words, step.given, folder)
        return status, printed(out, folder), ""
    done = subprocess.run(
        [program, *step.words[1:]],
        cwd=folder,
        env=environment(folder),
        input=step.given,
        capture_output=True,
        timeout=TIMEOUT_S,
    )
    return done.returncode, printed(done.stdout, folder), printed(done.stderr, folder)


def difference(title, want, got):
    unseen = r"[\x00-\x09\x0b-\x1f\x7f\udc80-\udcff]"
    lines = [re.sub(unseen, lambda m: ascii(m[0])[1:-1], text).splitlines(keepends=True)
             for text in (want, got)]  # fmt: skip
    return "".join(difflib.unified_diff(*lines, fromfile=f"{title} expected", tofile="printed", n=2))


class Setups:
    """What the set-ups leave; each is played once."""

    def __init__(self, program, folder, keep=None, stored=HERE / "setup"):
        self.program, self.folder, self.keep, self.stored = program, Path(folder), keep, stored
        self.left = {}

    def played(self, name):
        """Its output is looked at when it is run as a session."""
        if name not in self.left:
            path = self.stored / f"{name}.session"
            if not path.is_file():
                raise Malformed(f"no case before it and no set-up is called {name}")
            if self.keep and (self.keep / name).is_dir():
                self.left[name] = self.keep / name
                return self.left[name]
            self.left[name] = None
            _, cases = parse(path)
            if len(cases) != 1:
                raise Malformed(f"the set-up {name} is not one case")
            made = self.folder / name
            self.begin(cases[0].base, made)
            for step in cases[0].steps:
                status, _, err = play(self.program, step, str(made))
                if status != 0:
                    raise Malformed(f"the set-up {name} fails: {shlex.join(step.words)}\n{err}")
            self.left[name] = made
        if not self.left[name]:
            raise Malformed(f"the set-up {name} begins from itself")
        return self.left[name]

    def begin(self, name, made):
        if name:
            shutil.copytree(self.played(name), made, dirs_exist_ok=True)
        else:
            made.mkdir(exist_ok=True)

    def put(self, name, made):
        """What the set-up left, just run as a session."""
        to = (self.keep or self.folder) / name
        if not to.is_dir() or self.keep:
            fresh = Path(tempfile.mkdtemp(dir=to.parent))
            shutil.copytree(made, fresh, dirs_exist_ok=True)
            shutil.rmtree(to, ignore_errors=True)
            fresh.rename(to)
        self.left[name] = to


class Run:
    """The cases of a file; what a case leaves that others begin with is kept until the file is done."""

    def __init__(self, setups, stack):
        self.setups, self.stack = setups, stack
        self.left = {}
        self.problems = []

    def folder(self, case):
        # The length of its path is that of a usual one: messages are broken into lines with it.
        made = self.stack.enter_context(tempfile.TemporaryDirectory(prefix="areo-session"))
        made = os.path.realpath(made)
        if case.base in self.left:
            shutil.copytree(self.left[case.base], made, dirs_exist_ok=True)
        else:
            self.setups.begin(case.base, Path(made))
        return made

    def run(self, case, path):
        """Plays all steps; says what differs; leaves in them what was printed."""
        folder = self.folder(case)
        for step in case.steps:
            status, out, err = play(self.setups.program, step, folder)
            where = f"{path.parent.name}/{path.name}:{step.line + 1}: `{shlex.join(step.words)}`"
            if step.quiet:
                if status != 0:
                    raise Malformed(f"{where} exits {status}, expected 0\n{err}")
                continue
            if status != step.status:
                self.problems.append(f"{where} exits {status}, expected {step.status}\n")
            for name, got in (("out", out), ("err", err)):
                if name in step.shown and (want := getattr(step, name)) != got:
                    self.problems.append(f"{where}\n{difference(f'standard {name}', want, got)}")
            step.status, step.out, step.err = status, out, err
        if case.name:
            self.left[case.name] = folder
        if path.parent == self.setups.stored:
            self.setups.put(path.stem, folder)


def rewritten(lines, cases):
    lines = list(lines)
    for case in reversed(cases):
        for step in reversed(case.steps):
            if not step.quiet:
                new = expected(step)
                if case.block:  # as it is printed, without marks
                    new = "".join(getattr(step, name) for name in step.shown).split("\n")[:-1]
                lines[step.begin : step.end] = new
    return "\n".join(lines)


def run_file(setups, path, write=False):
    """(number of commands looked at, problems)"""
    with contextlib.ExitStack() as stack:
        run = Run(setups, stack)
        cases = []
        try:
            lines, cases = parse(path)
            for case in cases:
                run.run(case, path)
            if write and run.problems:
                text = rewritten(lines, cases)
                path.write_bytes(text.encode(errors="surrogateescape"))
                return len(cases), []
        except (Malformed, ValueError, subprocess.TimeoutExpired) as e:
            run.problems.append(f"{path.parent.name}/{path.name}: {e}")
        return sum(not s.quiet for c in cases for s in c.steps), run.problems


def sessions(given):
    for path in given or [HERE]:
        yield from sorted(path.rglob("*.session")) if path.is_dir() else [path]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=Path, required=True)
    parser.add_argument("--update", action="store_true")
    parser.add_argument("--keep", type=Path)
    parser.add_argument("sessions", nargs="*", type=Path)
    args = parser.parse_args()
    if args.keep:
        args.keep.mkdir(parents=True, exist_ok=True)
    looked_at, failed = 0, 0
    with tempfile.TemporaryDirectory(prefix="areo-session-setups") as folder:
        setups = Setups(args.program.resolve(), folder, args.keep)
        for path in sessions(args.sessions):
            number, problems = run_file(setups, path.resolve(), args.update)
            looked_at += number
            failed += len(problems)
            for problem in problems:
                print(problem)
    print(f"{looked_at} outputs, {failed} differ")
    return 1 if failed or not looked_at else 0


if __name__ == "__main__":
    sys.exit(main())
