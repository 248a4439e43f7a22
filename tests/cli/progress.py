#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The progress bar: on a terminal, after a second, and gone at the end; nowhere else.

  progress.py --program PATH
  progress.py --selftest       the check must fail for programs that draw none, or leave it there
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from terminal import shown_on_terminal

# More than the digits need, so that it takes more than a second on any machine.
LONG = "refract 7.8Bx --temp 22C --gravity 1.012 --monte-carlo --trials 500000".split()
SHORT = "convert 1.048 --to P --monte-carlo".split()


def on_terminal(call):
    """(standard output, what the terminal got as standard error, seconds)"""
    begin = time.monotonic()
    shown, process = shown_on_terminal(call, "stderr", stdout=subprocess.PIPE)
    return process.stdout.read().decode(), shown, time.monotonic() - begin


def remaining(shown):
    """The lines that a terminal still shows: a carriage return writes over what was there."""
    lines = []
    for text in shown.split("\n"):
        line = ""
        for piece in text.split("\r"):
            line = piece + line[len(piece):]
        lines.append(line.rstrip())
    return "\n".join(lines).strip()


def check(program):
    os.environ["COLUMNS"] = "2000"  # what is said, not where its lines break
    out, shown, seconds = on_terminal([*program, *LONG])
    assert seconds > 1, f"the long run took {seconds:.2f} s: too short to test with"
    assert "sampling [#" in shown, f"no bar in {seconds:.1f} s: {shown!r}"
    assert remaining(shown) == "", f"the terminal keeps {remaining(shown)!r}"
    assert "trials, seed 1" in out, out
    piped = subprocess.run([*program, *LONG], capture_output=True, text=True, timeout=300)
    assert piped.stderr == "", f"a pipe gets {piped.stderr!r}"
    assert piped.stdout == out, "the output differs on a terminal"
    _, shown, seconds = on_terminal([*program, *SHORT])
    if seconds < 1:  # a busy machine may take longer
        assert shown == "", f"a run of {seconds:.2f} s shows {shown!r}"


FAKE = """
import sys, time
time.sleep(1.1)
if {condition}:
    sys.stderr.write({text!r})
print("9 trials, seed 1")
"""


def selftest():
    terminal, blank = "sys.stderr.isatty() and '--gravity' in sys.argv", "\r" + " " * 60 + "\r"
    bar = "\rsampling [####    ]  50 %"
    cases = [
        ("right", terminal, bar + blank, True),
        ("none", "False", "", False),
        ("left there", terminal, bar, False),
        ("half erased", terminal, bar + "\r    \r", False),
        ("in a pipe", "'--gravity' in sys.argv", bar + blank, False),
    ]
    with tempfile.TemporaryDirectory() as folder:
        fake = Path(folder) / "fake.py"
        for name, condition, text, good in cases:
            fake.write_text(FAKE.format(condition=condition, text=text), encoding="utf-8")
            try:
                check([sys.executable, str(fake)])
                passed = True
            except AssertionError:
                passed = False
            assert passed == good, f"'{name}' passes: {passed}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program")
    parser.add_argument("--selftest", action="store_true")
    options = parser.parse_args()
    if options.selftest:
        selftest()
    else:
        check([options.program])


if __name__ == "__main__":
    main()
