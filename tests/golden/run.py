#!/usr/bin/env python3
"""Runs the program on golden cases and compares what it prints byte for byte.

  run.py --program PATH [--update] [CASE.cmd ...]      default: all cases beside this file
  run.py --selftest

A case is a group of files with one stem:
  x.cmd    first line `rc=N`; then one invocation a line, split like shell words (no shell runs); a
           leading word `areo` is allowed; empty lines and lines that start with `#` are passed over.
           All run in one fresh directory, with a fresh notebook. N is the exit code of the last
           one, the others must exit 0.
  x.out    standard output of the last invocation; no file: nothing
  x.err    standard error of it; no file: nothing
  x.in     its standard input; no file: empty
  x.files/ copied into the directory first
The path of the directory is printed as TMP. --update writes the outputs instead of comparing them.
"""

import argparse
import difflib
import os
import shlex
import shutil
import subprocess
import sys
import tempfile
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


def run_case(program, cmd):
    """(problems, stdout, stderr) of the last invocation."""
    rc, calls = read_case(cmd)
    problems = []
    with tempfile.TemporaryDirectory(prefix="areo-golden-") as tmp:
        tmp = os.path.realpath(tmp)
        if cmd.with_suffix(".files").is_dir():
            shutil.copytree(cmd.with_suffix(".files"), tmp, dirs_exist_ok=True)
        given = cmd.with_suffix(".in")
        for i, call in enumerate(calls, 1):
            last = i == len(calls)
            done = subprocess.run(
                [program, *call],
                cwd=tmp,
                env=environment(tmp),
                input=given.read_bytes() if last and given.is_file() else b"",
                capture_output=True,
                timeout=TIMEOUT_S,
            )
            if done.returncode != (rc if last else 0):
                problems.append(
                    f"`{shlex.join(call)}` exits {done.returncode}, expected {rc if last else 0}"
                )
                if not last:
                    problems.append(done.stderr.decode(errors="replace"))
                    break
        out, err = (b.replace(tmp.encode(), b"TMP") for b in (done.stdout, done.stderr))
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
    for cmd in cases:
        try:
            problems, out, err = run_case(program, cmd)
        except (ValueError, subprocess.TimeoutExpired) as e:
            problems, out, err = [str(e)], b"", b""
        else:
            for path, got in ((cmd.with_suffix(".out"), out), (cmd.with_suffix(".err"), err)):
                if write:
                    update(path, got)
                elif difference := compare(path, got):
                    problems.append(difference)
        failed += bool(problems)
        for problem in problems:
            print(f"{cmd.parent.name}/{cmd.stem}: {problem}")
    return failed


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
    cases = args.cases or sorted(HERE.glob("*/*.cmd"))
    failed = run(args.program.resolve(), cases, args.update)
    print(f"{len(cases)} cases, {failed} failed")
    return 1 if failed or not cases else 0


if __name__ == "__main__":
    sys.exit(main())
