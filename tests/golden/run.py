#!/usr/bin/env python3
"""Runs the program on golden cases and compares what it prints byte for byte.

  run.py --program PATH [--update] [CASE.cmd | FOLDER ...]      default: all cases beside this file
  run.py --selftest

A case is a group of files with one stem:
  x.cmd    first line `rc=N`; then one invocation a line, split like shell words (no shell runs); a
           leading word `areo` is allowed; empty lines and lines that start with `#` are passed over.
           All run in one fresh directory, with a fresh notebook. N is the exit code of the last
           one, the others must exit 0. First steps that several cases have in common run once; each
           case goes on in a copy of what they left.
  x.out    standard output of the last invocation; no file: nothing
  x.err    standard error of it; no file: nothing
  x.in     its standard input; no file: empty
  x.files/ copied into the directory first
The path of the directory is printed as TMP, version and digest of the tables as VERSION and DIGEST,
the style of a page as STYLE: they change without a result that does. --update writes the outputs instead of comparing them.
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
from collections import Counter
from pathlib import Path

HERE = Path(__file__).resolve().parent
TIMEOUT_S = 120


def read_case(cmd):
    first, _, rest = cmd.read_text(encoding="utf-8").partition("\n")
    if not first.startswith("rc="):
        raise ValueError(f"{cmd}: the first line must be rc=N")
    lines = [l for l in rest.splitlines() if l.strip() and not l.lstrip().startswith("#")]
    calls = [shlex.split(line) for line in lines]
    if not calls:
        raise ValueError(f"{cmd}: no invocation")
    return int(first[3:]), [c[1:] if c[:1] == ["areo"] else c for c in calls]


def environment(tmp):
    kept = {k: v for k, v in os.environ.items() if k == "PATH" or k.endswith("SAN_OPTIONS")}
    return kept | {
        "HOME": tmp,
        "XDG_DATA_HOME": f"{tmp}/data",
        "AREO_NOTEBOOK": f"{tmp}/notebook.db",
        "LC_ALL": "C.UTF-8",
        "NO_COLOR": "1",
        "TZ": "UTC",
    }


class Steps:
    """What the first steps of a case leave; steps that several cases share run once."""

    def __init__(self, program, cases, folder):
        self.program, self.folder = program, Path(folder)
        self.left = {}
        self.uses = Counter()
        for cmd in cases:
            with contextlib.suppress(ValueError):  # told when its turn comes
                _, calls = read_case(cmd)
                self.uses.update(self.key(cmd, calls[:n]) for n in range(1, len(calls)))

    @staticmethod
    def key(cmd, calls):
        files = cmd.with_suffix(".files")
        return (files if files.is_dir() else None, shlex.join(word for c in calls for word in [*c, ";"]))

    def call(self, call, tmp, given=b""):
        return subprocess.run(
            [self.program, *call],
            cwd=tmp,
            env=environment(tmp),
            input=given,
            capture_output=True,
            timeout=TIMEOUT_S,
        )

    def prepare(self, cmd, calls, tmp):
        """Runs the first steps in tmp, or copies what they left."""
        done = len(calls)
        while done > 0 and self.key(cmd, calls[:done]) not in self.left:
            done -= 1
        files = cmd.with_suffix(".files")
        if done > 0:
            shutil.copytree(self.left[self.key(cmd, calls[:done])], tmp, dirs_exist_ok=True)
        elif files.is_dir():
            shutil.copytree(files, tmp, dirs_exist_ok=True)
        for n in range(done, len(calls)):
            step = self.call(calls[n], tmp)
            if step.returncode != 0:
                raise ValueError(f"`{shlex.join(calls[n])}` exits {step.returncode}, expected 0\n"
                                 + step.stderr.decode(errors="replace"))  # fmt: skip
            key = self.key(cmd, calls[: n + 1])
            if self.uses[key] > 1:
                self.left[key] = self.folder / str(len(self.left))
                shutil.copytree(tmp, self.left[key])


def masked(out, tmp):
    """What says nothing about the case, by its name; how pages look is for tests/browser."""
    out = out.replace(tmp.encode(), b"TMP")
    out = re.sub(rb"(?s)<style>.*?@media print.*?</style>", b"<style>STYLE</style>", out)
    out = re.sub(rb"areo \S+ \(tables [0-9a-f]+\)", b"areo VERSION (tables DIGEST)", out)
    return re.sub(rb'"areo":"[^"]+","tables":"[0-9a-f]+"', b'"areo":"VERSION","tables":"DIGEST"', out)


def run_case(steps, cmd):
    """(problems, stdout, stderr) of the last invocation."""
    rc, (*first, call) = read_case(cmd)
    with tempfile.TemporaryDirectory(prefix="areo-golden-") as tmp:
        tmp = os.path.realpath(tmp)
        steps.prepare(cmd, first, tmp)
        given = cmd.with_suffix(".in")
        done = steps.call(call, tmp, given.read_bytes() if given.is_file() else b"")
        problems = []
        if done.returncode != rc:
            problems.append(f"`{shlex.join(call)}` exits {done.returncode}, expected {rc}")
        out, err = (masked(b, tmp) for b in (done.stdout, done.stderr))
    return problems, out, err


def compare(path, got):
    expected = path.read_bytes() if path.is_file() else b""
    if expected == got:
        return None
    lines = [b.decode(errors="backslashreplace").splitlines(keepends=True) for b in (expected, got)]
    diff = difflib.unified_diff(*lines, fromfile=f"{path.name} expected", tofile="printed", n=2)
    return "".join(l if l.endswith("\n") else l + "\n\\ no end of line\n" for l in diff)


def update(path, got):
    if got:
        path.write_bytes(got)
    else:
        path.unlink(missing_ok=True)


def run(program, cases, write=False):
    """Number of failed cases."""
    failed = 0
    with tempfile.TemporaryDirectory(prefix="areo-golden-steps-") as folder:
        steps = Steps(program, cases, folder)
        for cmd in cases:
            problems = check(steps, cmd, write)
            failed += bool(problems)
            for problem in problems:
                print(f"{cmd.parent.name}/{cmd.stem}: {problem}")
    return failed


def check(steps, cmd, write):
    try:
        problems, out, err = run_case(steps, cmd)
    except (ValueError, subprocess.TimeoutExpired) as e:
        return [str(e)]
    for path, got in ((cmd.with_suffix(".out"), out), (cmd.with_suffix(".err"), err)):
        if write:
            update(path, got)
        elif difference := compare(path, got):
            problems.append(difference)
    return problems


def selftest():
    """A harness that cannot fail proves nothing."""
    with tempfile.TemporaryDirectory() as tmp:
        program = Path(tmp) / "program"
        program.write_text('#!/bin/sh\n[ "$1" = fail ] && exit 3\ncat\necho "$#:$1:$NO_COLOR:$PWD"\n')
        program.chmod(0o755)
        cmd = Path(tmp) / "x.cmd"
        good = {".cmd": "rc=0\nareo first\n'a b' c\n", ".out": "in\n2:a b:1:TMP\n", ".in": "in\n"}
        bad = {
            "other output": {".out": "in\n2:a b:1:tmp\n"},
            "output without end of line": {".out": "in\n2:a b:1:TMP"},
            "no expected output": {".out": None},
            "expected error output": {".err": "words\n"},
            "other exit code": {".cmd": "rc=1\n'a b' c\n"},
            "failing step": {".cmd": "rc=0\nfail\n'a b' c\n"},
            "no exit code": {".cmd": "'a b' c\n"},
            "no invocation": {".cmd": "rc=0\n"},
        }
        wrong = []
        for title, change in [("good", {}), *bad.items()]:
            for suffix in (".cmd", ".out", ".err", ".in"):
                cmd.with_suffix(suffix).unlink(missing_ok=True)
            for suffix, content in (good | change).items():
                if content is not None:
                    cmd.with_suffix(suffix).write_text(content)
            if bool(run(program, [cmd])) != bool(change):
                wrong.append(title)
        said = (b'areo 1.2.3 (tables 0a1b) tables 0a1b "areo":"1","tables":"0f" /tmp/x '
                b"<style>a\n@media print {b}</style>c</style>")  # fmt: skip
        if masked(said, "/tmp/x") != (b"areo VERSION (tables DIGEST) tables 0a1b "
                                      b'"areo":"VERSION","tables":"DIGEST" TMP '
                                      b"<style>STYLE</style>c</style>"):  # fmt: skip
            wrong.append("what is masked")
        shared = [Path(tmp) / f"{name}.cmd" for name in ("y", "z")]
        program.write_text('#!/bin/sh\necho "$1" >>log\ncat log\necho "$1" >>"$(dirname "$0")/calls"\n')
        for case in shared:
            case.write_text(f"rc=0\nfirst\nsecond\n{case.stem}\n")
            case.with_suffix(".out").write_text(f"first\nsecond\n{case.stem}\n")
        calls = Path(tmp) / "calls"
        if run(program, shared) or calls.read_text().split() != ["first", "second", "y", "z"]:
            wrong.append("shared steps")
    print(f"selftest: {'wrong about ' + ', '.join(wrong) if wrong else 'ok'}")
    return len(wrong)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=Path)
    parser.add_argument("--update", action="store_true")
    parser.add_argument("--selftest", action="store_true")
    parser.add_argument("cases", nargs="*", type=Path)
    args = parser.parse_args()
    if args.selftest:
        return 1 if selftest() else 0
    if not args.program:
        parser.error("--program is needed")
    given = args.cases or [f for f in HERE.iterdir() if f.is_dir()]
    cases = sorted(c for g in given for c in (g.glob("*.cmd") if g.is_dir() else [g]))
    failed = run(args.program.resolve(), cases, args.update)
    print(f"{len(cases)} cases, {failed} failed")
    return 1 if failed or not cases else 0


if __name__ == "__main__":
    sys.exit(main())
