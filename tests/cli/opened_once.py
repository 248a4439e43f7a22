#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A command opens the notebook once, however many instruments and readings it looks up.

Counted by the kernel (inotify): how often the file is opened while a command runs, against a command
that is known to open it once.
"""

import ctypes
import os
import struct
import sys

from robust import main

IN_ACCESS, IN_CLOSE, IN_OPEN = 0x01, 0x18, 0x20
IN_NONBLOCK = 0o4000
libc = ctypes.CDLL(None, use_errno=True)


class Opens:
    """Counts how often a file is opened. Events of one kind in a row would become one, so what lies
    between them is watched too."""

    def __init__(self, path):
        self.fd = libc.inotify_init1(IN_NONBLOCK)
        if self.fd < 0 or libc.inotify_add_watch(self.fd, os.fsencode(path), IN_ACCESS | IN_CLOSE | IN_OPEN) < 0:
            raise OSError(ctypes.get_errno(), "inotify")

    def count(self):
        seen = 0
        while True:
            try:
                data = os.read(self.fd, 65536)
            except BlockingIOError:
                return seen
            at = 0
            while at < len(data):
                _, mask, _, length = struct.unpack_from("iIII", data, at)
                seen += bool(mask & IN_OPEN)
                at += 16 + length


def opens(bench, command):
    """How often a command opens the notebook."""
    watch = Opens(bench.notebook)
    try:
        code, _, err = bench.run(command)
        assert code in (0, 1), f"`{command}` exits {code}: {err}"
        return watch.count()
    finally:
        os.close(watch.fd)


READS = [
    "correct 1.048 --temp 27C --instrument stem-1 --thermometer probe-1",
    "correct 12.4Bx --temp 21C --instrument prism-1",
    "alcohol 1.050 1.010 --temp 20C --instrument stem-1",
    "refract 6.8Bx --temp 21C --original 12.4Bx --instrument prism-1",
    "refract 6.8Bx --temp 21C --gravity 1.012 --instrument prism-1 --hydrometer stem-1",
    "table card stem-1",
    "table temperature --instrument stem-1",
    "batch show PT-1",
    "trend PT-1",
    "bottle PT-1",
    "calibrate show stem-1",
    "certificate stem-1",
    "report PT-1 --out report.html",
    "export copy.jsonl",
    "solution sugar --target 1.040 --total 500g --instrument stem-1",
    "reading add PT-1 1.010 --temp 20C --instrument stem-1 --on 2026-11-02 --yes",
    "calibrate water stem-1 1.001 22C",
]


def each_command_opens_it_once(bench):
    for command in (
        "instrument add stem-1",
        "instrument add prism-1 --kind refractometer",
        "instrument add probe-1 --kind thermometer",
        "calibrate water stem-1 1.001 21C",
        "calibrate sugar stem-1 1.041 21C --solute 50g --water 450g",
        "calibrate fit stem-1",
        "batch add PT-1",
        "reading add PT-1 1.050 --temp 20C --original --instrument stem-1",
        "reading add PT-1 1.010 --temp 20C --instrument stem-1 --yes",
    ):
        bench.good(command)
    once = opens(bench, "instrument list")
    assert once > 0
    for command in READS:
        count = opens(bench, command)
        assert count == once, f"`{command}` opens it {count} times; once is {once}"


WRONG = """#!/usr/bin/env python3
# Opens the notebook twice.
import os, sys
for _ in range(1 if "list" in sys.argv else 2):
    open(os.environ["AREO_NOTEBOOK"], "a+").close()
"""

if __name__ == "__main__":
    sys.exit(main([each_command_opens_it_once], WRONG))
