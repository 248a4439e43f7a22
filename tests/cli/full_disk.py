#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The notebook when the disk is full: nothing is lost, and it goes on once there is room.

  full_disk.py --program PATH
  full_disk.py --selftest       the checks must fail on a program that does everything wrong

A disk of its own needs the right to mount one; without it that part is skipped, and exit code 77
says so.
"""

import contextlib
import resource
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

from endurance import note_at_bench, prepare, require_sound
from robust import Bench, main

SKIPPED = 77
CHUNK = "x" * 20_000


class SmallDisk:
    """1 MiB, in memory, mounted for a while."""

    def __enter__(self):
        self.folder = Path(tempfile.mkdtemp(prefix="areo-disk-"))
        mount = ["mount", "-t", "tmpfs", "-o", "size=1m,mode=755", "areo-test", self.folder]
        self.mounted = subprocess.run(mount, capture_output=True, check=False).returncode == 0
        return self

    def __exit__(self, *_):
        if self.mounted:
            subprocess.run(["umount", self.folder], check=True)
        self.folder.rmdir()


def can_mount():
    try:
        with SmallDisk() as disk:
            return disk.mounted
    except FileNotFoundError:  # no such command
        return False


def note_until_refused(bench):
    """Readings with long notes; how many were accepted, and what the first refusal said."""
    for count in range(1_000_000 // len(CHUNK)):
        code, _, err = bench.run(["reading", "add", "PT-1", "1.004", "--temp", "21C", "--yes", "--note",
                                  CHUNK])  # fmt: skip
        if code:
            return count, code, err
    raise AssertionError("it is never full")


def fill_up(filler):
    with filler.open("ab", buffering=0) as f, contextlib.suppress(OSError):
        while True:
            f.write(bytes(4096))


def require_clear(code, err, notebook):
    assert code == 4, f"exits {code}: {err}"
    assert str(notebook) in err and "what was there before is intact" in err, err


def full(bench):
    """No byte is left. What was noted is there, and can be read; nothing more goes in."""
    with SmallDisk() as disk:
        inner = Bench(bench.program, str(disk.folder))
        prepare(inner, 3)
        filler = disk.folder / "filler"
        filler.write_bytes(bytes(256 * 1024))
        count, code, err = note_until_refused(inner)
        require_clear(code, err, inner.notebook)
        fill_up(filler)
        for _ in range(3):
            code, _, err = inner.run("reading add PT-1 1.004 --temp 21C --yes")
            require_clear(code, err, inner.notebook)
        # Whatever only looks can, though there is no room for what lies beside a notebook.
        for command in ("batch show PT-1", "trend PT-1", "instrument list", "batch list"):
            assert inner.good(command)
        shown = inner.good("reading list PT-1 --json")
        assert len(shown.splitlines()) == 3 + count
        filler.unlink()
        assert len(require_sound(inner)) == 3 + count
        assert note_at_bench(inner, ["1.003"]) == [4 + count]


def full_at_the_bench(bench):
    """The session says what happened, and goes on when there is room again."""
    with SmallDisk() as disk:
        inner = Bench(bench.program, str(disk.folder))
        prepare(inner, 1)
        filler = disk.folder / "filler"
        process = inner.start("bench PT-1", stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        shown = ""
        patience = threading.Timer(120, process.kill)
        patience.start()

        def answer(text, until):
            nonlocal shown
            process.stdin.write(text.encode())
            process.stdin.flush()
            seen = ""
            while not seen.endswith(until):
                byte = process.stdout.read(1)
                assert byte, shown + seen
                seen += byte.decode("latin-1")
            shown += seen
            return seen

        answer("1.004\n21C\n\n", "noted as reading 2\n")
        fill_up(filler)
        answer(f"note {CHUNK}\n1.004\n21C\n\n", "what was there before is intact\n")
        filler.unlink()
        answer("1.003\n21C\n\n", "noted as reading 3\n")
        process.stdin.close()
        process.stdout.read()
        process.stdout.close()
        process.stderr.close()
        patience.cancel()
        assert process.wait(timeout=300) == 1  # something was refused, and nobody could answer
        assert require_sound(inner) == {1: "1.000", 2: "1.004", 3: "1.003"}


def limited(bench):
    """The same without a disk: no file may grow beyond a limit."""
    prepare(bench, 3)
    before = bench.notebook.stat().st_size

    class Limited(Bench):
        def start(self, command, **more):
            # Python ignores the signal that would end the program, and hands that down.
            return super().start(
                command, restore_signals=False, **more,
                preexec_fn=lambda: resource.setrlimit(
                    resource.RLIMIT_FSIZE, (before + 100_000, before + 100_000)))  # fmt: skip

    count, code, err = note_until_refused(Limited(bench.program, str(bench.folder)))
    require_clear(code, err, bench.notebook)
    assert len(require_sound(bench)) == 3 + count
    assert note_at_bench(bench, ["1.003"]) == [4 + count]


if __name__ == "__main__":
    disk = [full, full_at_the_bench] if can_mount() else []
    failed = main([limited, *disk])
    if not disk and not failed:
        print("skipped: no disk can be mounted here; only the limit of a file's size was tested")
        sys.exit(SKIPPED)
    sys.exit(failed)
