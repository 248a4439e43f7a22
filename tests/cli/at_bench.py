#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""areo bench at a terminal: what a person with wet hands meets.

  at_bench.py --program PATH
  at_bench.py --selftest       the checks must fail on a program that does everything wrong
"""

import os
import pty
import re
import select
import signal
import subprocess
import sys
import termios
import time

from robust import main

PATIENCE_S = 60  # for a prompt, on a slow machine under sanitizers


class Terminal:
    """A session on a terminal of its own, which echoes what is typed, as a real one does."""

    def __init__(self, bench, command):
        self.end, far = pty.openpty()
        self.process = subprocess.Popen(
            [bench.program, *command.split()], env=bench.environment, cwd=bench.folder,
            stdin=far, stdout=far, stderr=far, preexec_fn=lambda: self.take_over(far))  # fmt: skip
        os.close(far)
        self.seen = ""

    @staticmethod
    def take_over(far):
        """Makes it the terminal that Ctrl-C comes from."""
        os.setsid()
        os.set_inheritable(far, True)
        import fcntl  # noqa: PLC0415

        fcntl.ioctl(far, termios.TIOCSCTTY, 0)

    def read(self):
        """More of what is shown; False at the end."""
        try:
            more = os.read(self.end, 65536)
        except OSError:  # the other end is closed
            return False
        self.seen += more.decode()
        return bool(more)

    def until(self, pattern):
        """What is shown up to a pattern; nothing is typed meanwhile."""
        deadline = time.monotonic() + PATIENCE_S
        while not (found := re.search(pattern, self.seen)):
            ready, _, _ = select.select([self.end], [], [], deadline - time.monotonic())
            assert ready and self.read(), f"no {pattern!r} in {self.seen!r}"
        text, self.seen = self.seen[: found.end()], self.seen[found.end() :]
        return text

    def type(self, text):
        os.write(self.end, text.encode())

    def answer(self, prompt, text):
        shown = self.until(prompt)
        self.type(text + "\r")
        return shown

    def note(self, reading):
        """Its number in the notebook."""
        self.answer(r"PT-1 shows> $", reading)
        self.answer(r"temperature, .*> $", "21C")
        self.answer(r"note it\? .*> $", "")
        return int(re.search(r"noted as reading (\d+)", self.until(r"noted as reading \d+\r\n"))[1])

    def finish(self):
        """(exit code, what was shown last)"""
        while self.read():
            pass
        os.close(self.end)
        return self.process.wait(timeout=PATIENCE_S), self.seen


def session(bench):
    if not bench.notebook.exists() or bench.notebook.stat().st_size == 0:
        bench.good("instrument add stem-1 --from 0.990 --to 1.100 --division 0.002")
        bench.good("batch add PT-1 --volume 5L")
    return Terminal(bench, "bench PT-1")


def typed(bench):
    """Readings that count, as a second program sees them."""
    lines = bench.good("batch show PT-1").splitlines()
    return re.findall(r"stem-1: (\S+), ", "\n".join(x for x in lines if "excluded" not in x))


def written_at_once(bench):
    """Every question comes before its answer; what was accepted is in the notebook at once."""
    s = session(bench)
    assert s.note("1.048") == 1
    s.until(r"PT-1 shows> $")
    assert typed(bench) == ["1.048"], typed(bench)
    assert bench.rows("reading") == 1
    s.type("done\r")
    code, shown = s.finish()
    assert code == 0 and "1 reading noted, 0 readings taken back" in shown, (code, shown)


def answers_put_right(bench):
    """What cannot be read is refused with the reason, and asked again."""
    s = session(bench)
    s.answer(r"PT-1 shows> $", "1.x48")
    shown = s.until(r"PT-1 shows> $")
    assert "areo: error: " in shown and "^" in shown, shown
    s.type("1.048\r")
    s.answer(r"temperature, .*> $", "warm")
    shown = s.until(r"temperature, .*> $")  # the reading is not lost for it
    assert "areo: error: " in shown, shown
    assert bench.rows("reading") == 0
    s.type("21C\r")
    s.answer(r"note it\? .*> $", "n")
    assert "not noted" in s.until(r"PT-1 shows> $")
    assert bench.rows("reading") == 0
    s.type("\r")
    assert s.note("1.048") == 1
    s.answer(r"PT-1 shows> $", "done")
    code, shown = s.finish()
    assert code == 0, (code, shown)  # a person saw the refusals


def taken_back(bench):
    s = session(bench)
    s.note("1.048")
    s.note("1.046")
    s.answer(r"PT-1 shows> $", "undo")
    s.until(r"taken back: reading 2\r\n")
    assert typed(bench) == ["1.048"], typed(bench)
    assert bench.rows("reading") == 2
    s.answer(r"PT-1 shows> $", "undo")
    s.answer(r"PT-1 shows> $", "undo")
    s.until("nothing to undo")
    s.answer(r"PT-1 shows> $", "done")
    code, shown = s.finish()
    assert code == 0 and "2 readings noted, 2 readings taken back" in shown, (code, shown)


def asked_twice(bench):
    """What is far from what is expected is noted only if somebody says y."""
    s = session(bench)
    assert s.note("1.018") == 1
    for answer, noted in (("", False), ("n", False), ("y", True)):
        s.answer(r"PT-1 shows> $", "1.0018")
        s.answer(r"temperature, .*> $", "")
        shown = s.until(r"all the same\? y for yes, Enter for no> $")
        assert "look again: 1.0018 is 0.0162 in gravity below 1.018" in shown, shown
        s.type(answer + "\r")
        s.until("noted as reading 2\r\n" if noted else "not noted\r\n")
    s.answer(r"PT-1 shows> $", "done")
    code, shown = s.finish()
    assert code == 0 and "2 readings noted" in shown, (code, shown)


def asked_by_a_command(bench):
    """A single command asks as well, where there is somebody to answer."""
    session(bench).process.kill()
    bench.good("reading add PT-1 1.018 --temp 20C")
    for answer, code in (("", 1), ("y", 0)):
        s = Terminal(bench, "reading add PT-1 1.0018 --temp 20C")
        s.answer(r"look again: 1.0018 .*\r\nnote it all the same\? .*> $", answer)
        assert s.finish()[0] == code
        assert bench.rows("reading") == (1 if code else 2)


def broken_off(bench):
    """Ctrl-C, a kill and Ctrl-D in each question lose the line being typed and nothing else."""
    questions = [r"PT-1 shows> $", r"temperature, .*> $", r"note it\? .*> $"]
    answers = ["1.04", "2", "ye"]
    count = 0
    for end in ("ctrl-c", "kill", "ctrl-d"):
        for depth in range(3):
            s = session(bench)
            count += 1
            assert s.note(f"1.0{30 + count}") == count
            for question, answer in zip(questions[:depth], [f"1.0{32 + count}", "20C"]):
                s.answer(question, answer)
            s.until(questions[depth])
            if end == "ctrl-d":
                s.type("\x04")
            else:
                s.type(answers[depth])  # a line that is not finished
                if end == "ctrl-c":
                    s.type("\x03")
                else:
                    s.process.kill()
            code, shown = s.finish()
            expected = {"ctrl-c": -signal.SIGINT, "kill": -signal.SIGKILL, "ctrl-d": 0}[end]
            assert code == expected, f"{end} in question {depth + 1} exits {code}: {shown}"
            assert end != "ctrl-d" or "1 reading noted" in shown, shown
            assert bench.rows("reading") == count, f"{end} in question {depth + 1}"
            assert len(typed(bench)) == count


CHECKS = [written_at_once, answers_put_right, taken_back, asked_twice, asked_by_a_command,
          broken_off]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
