#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A byte changes on the disk, in each page of a notebook and each frame of its -wal.

  flips.py --program PATH
  flips.py --program PATH --selftest       the checks must fail on one that crashes

The program never crashes. It either says so, or says what it said before, or says something else in
silence: a number in the middle of a row may be any number. How often, is printed: nothing in the file
could tell. AREO_TORTURE=N changes N times as many bytes.
"""

import collections
import contextlib
import shutil
import sqlite3
import subprocess
import sys

from attack import FRAGILE, Book, chance, rounds

from endurance import note_at_bench, prepare
from robust import WATER, main

READINGS = 300
PAGE, FRAME = 4096, 4096 + 24
COMMANDS = ["export -", "batch show PT-1", "reading list PT-1 --json"]
WRITE = "reading add PT-1 1.020 --temp 21C --yes"
# Done, but something was wrong; a value out of its range; the file. Not usage, and no bug.
TOLD = (1, 3, 4)


def make(bench):
    prepare(bench, READINGS)
    for command in (WATER, "calibrate fit stem-1", "reading exclude 3 --reason bubbles",
                    "reading amend 4 1.041 --reason slip --yes",
                    "addition add sugar PT-1 50g --on 2026-03-02",
                    "batch amend PT-1 --volume 4.6L --reason measured"):  # fmt: skip
        bench.good(command)


def outcome(book, expected):
    """What the commands say to a changed file: told, same, or changed."""
    found = "same"
    for command, before in zip(COMMANDS, expected):
        code, out, err = book.run(command)
        assert code in (0, *TOLD), f"`{command}` exits {code}: {err}"
        assert code == 0 or "areo: " in err, f"`{command}` exits {code} without a word"
        if code:
            return "told"
        if out != before:
            found = "changed"
    return found


def flip(file, place, luck):
    content = bytearray(file.read_bytes())
    content[place] ^= luck.randrange(1, 256)
    file.write_bytes(content)


def attack(book, restore, file, places, expected, luck):
    """Counts outcomes by what a place belongs to. `places`: (what, first byte, bytes)."""
    counts = collections.defaultdict(collections.Counter)
    for _ in range(rounds(2)):
        for what, first, size in places:
            restore()
            place = first + luck.randrange(size)
            flip(file, place, luck)
            try:
                counts[what][outcome(book, expected)] += 1
                code, _, err = book.run(WRITE)
                assert code in (0, *TOLD), f"`{WRITE}` exits {code}: {err}"
            except (AssertionError, subprocess.TimeoutExpired) as e:
                raise AssertionError(f"byte {place} of {file.name} ({what}): {e}") from e
    return counts


def tell(title, counts):
    total = sum(counts.values(), collections.Counter())
    print(f"{title}: {total.total()} bytes changed: {total['told']} told, {total['same']} without "
          f"consequence, {total['changed']} changed the output in silence")
    for what, of in counts.items():
        print(f"  {what}: {dict(of)}")
    return total


def kind_of_page(file):
    """table, index or other of each page."""
    with contextlib.closing(sqlite3.connect(file)) as db:
        kinds = dict(db.execute("SELECT pageno, coalesce(type, 'table') FROM dbstat AS d LEFT JOIN "
                                "sqlite_schema AS s ON s.name = d.name"))  # fmt: skip
        pages = db.execute("PRAGMA page_count").fetchone()[0]
    return [kinds.get(number + 1, "other") for number in range(pages)]


def a_byte_in_each_page(bench):
    make(bench)
    book = Book(bench, "changed.db")
    book.copy_of(bench)
    expected = [book.good(c) for c in COMMANDS]
    kinds = kind_of_page(bench.notebook)
    assert {"table", "index"} <= set(kinds), kinds
    places = [(kind, number * PAGE, PAGE) for number, kind in enumerate(kinds)]
    total = tell("in each page", attack(book, lambda: book.copy_of(bench), book.notebook, places, expected,
                                        chance(a_byte_in_each_page)))  # fmt: skip
    assert total["told"] and total["same"], "that is blind"


def a_byte_in_each_frame(bench):
    """Readings that lie in the -wal. A frame that does not add up ends it, as after a power cut: what
    comes behind it is gone, and nobody is told."""
    make(bench)
    left = [bench.folder / "left.db", bench.folder / "left.db-wal"]
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("SELECT count(*) FROM reading").fetchone()  # keeps areo from tidying up
        note_at_bench(bench, ["1.010"] * 5)
        for file in left:
            shutil.copy(str(bench.notebook) + file.name.removeprefix("left.db"), file)
    book = Book(bench, "changed.db")
    wal = bench.folder / "changed.db-wal"

    def restore():
        book.remove()
        for file in left:
            shutil.copy(file, bench.folder / file.name.replace("left", "changed"))

    restore()
    expected = [book.good(c) for c in COMMANDS]
    assert expected[0].count('"table":"reading"') == READINGS + 1 + 5
    frames = (left[1].stat().st_size - 32) // FRAME
    assert frames > 5, frames
    places = [("header", 0, 32)] + [("frame", 32 + n * FRAME, FRAME) for n in range(frames)]
    total = tell("in each frame", attack(book, restore, wal, places, expected,
                                         chance(a_byte_in_each_frame)))  # fmt: skip
    assert total["changed"], "that is blind"


CHECKS = [a_byte_in_each_page, a_byte_in_each_frame]

if __name__ == "__main__":
    sys.exit(main(CHECKS, FRAGILE))
