# SPDX-License-Identifier: GPL-3.0-or-later
"""What the attacks share: how long they go on, what is left to chance, and what they are made on."""

import contextlib
import os
import random
import re
import shutil
import sqlite3
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))

from robust import STEM, Bench  # noqa: E402

SEED = int(os.environ.get("AREO_TORTURE_SEED", "20260301"))
SCHEMA = Path(__file__).resolve().parents[2] / "src" / "notebook" / "schema.hpp"
STEPS = re.findall(r'schema_\d+ = R"sql\((.*?)\)sql"', SCHEMA.read_text(), re.DOTALL)
VERSIONS = len(STEPS)


def rounds(ordinary):
    """The variable AREO_TORTURE multiplies the rounds of every attack."""
    return ordinary * int(os.environ.get("AREO_TORTURE", "1"))


def chance(check):
    """The same for a check whatever others were run before it."""
    return random.Random(f"{SEED} {check.__name__}")


class Book(Bench):
    """Another notebook of the same program."""

    def __init__(self, bench, name):
        super().__init__(bench.program, str(bench.folder))
        self.notebook = bench.folder / name
        self.environment["AREO_NOTEBOOK"] = str(self.notebook)

    def copy_of(self, other):
        """Becomes what the file of another one is; nobody has that open."""
        self.remove()
        shutil.copy(other.notebook, self.notebook)

    def remove(self):
        for file in self.folder.glob(self.notebook.name + "*"):
            file.unlink()

    def asked(self, sql, notebook=None):
        with contextlib.closing(sqlite3.connect(notebook or self.notebook)) as db:
            return db.execute(sql).fetchall()

    def require_whole(self, notebook=None):
        found = self.asked("PRAGMA integrity_check", notebook)
        assert found == [("ok",)], found


# A reading of the batch, as often as asked.
READINGS = """
INSERT INTO reading (id, batch, bottle, sample, what, made_at, made_at_s, noted_at, noted_at_s,
  instrument, typed, indication, half_width, temperature_typed, temperature_c,
  temperature_half_width_c, meniscus, person, note, reason)
WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < :readings)
SELECT i, 1, '', i, 'present', '2026-03-03T10:00:00+00:00', 1772532000,
  '2026-03-03T10:00:00+00:00', 1772532000, 1, '1.040', 1.04, 0, '21C', 21, 0.5, 'level', 'Kim',
  'reading ' || i, '' FROM n WHERE i <= :readings
"""


def filled(bench, name, readings):
    """A notebook with so many readings of PT-1."""
    book = Book(bench, name)
    book.good(STEM + " --on 2026-02-28")
    book.good("batch add PT-1 --volume 5L --on 2026-03-01")
    with contextlib.closing(sqlite3.connect(book.notebook)) as db, db:
        db.execute(READINGS, {"readings": readings})
    return book


OLD_ROWS = """
INSERT INTO instrument (id, name, kind, scale_kind, scale_sample_c, scale_water_c, lo, hi, division,
  glass_expansion_per_c, added_at, note)
VALUES (1, 'stem-1', 'hydrometer', 'specific_gravity', 20, 20, 0.99, 1.1, 0.002, 25e-6,
  '2026-02-28T18:00:00+01:00', 'old')
"""
OLD_BATCH = """
INSERT INTO batch (id, name, drink, culture, vessel, volume_typed, volume_l, extract, liquid,
  started_at, started_at_s, note)
VALUES (1, 'PT-1', 'pear', 'mixed', 'jar', '5L', 5, '', '', '2026-03-02T10:00:00+00:00',
  1772445600, '')
"""


def older(bench, version, readings=500):
    """A notebook as an older areo left it; batches came with version 3."""
    book = Book(bench, f"older-{version}.db")
    with contextlib.closing(sqlite3.connect(book.notebook)) as db:
        for step in STEPS[:version]:
            db.executescript(step)
        db.execute("PRAGMA application_id = 0x4152454F")
        db.execute(f"PRAGMA user_version = {version}")
        db.execute("PRAGMA journal_mode = WAL")
        with db:
            db.execute(OLD_ROWS)
            if version >= 3:
                db.execute(OLD_BATCH)
                db.execute(READINGS, {"readings": readings})
    return book


def require_copy(book, version, rows):
    """The copy of a notebook as it was, if there is one; whether there is."""
    copy = book.folder / f"{book.notebook.name}.version-{version}"
    if not copy.exists():
        return False
    book.require_whole(copy)
    assert book.asked("PRAGMA user_version", copy) == [(version,)]
    assert rows_of_older(book, copy) == rows, "the copy has other rows"
    return True


def rows_of_older(book, notebook=None):
    tables = {name for (name,) in book.asked("SELECT name FROM sqlite_schema", notebook)}
    return [book.asked(f"SELECT id, {column}, note FROM {table}", notebook)
            for table, column in [("instrument", "name"), ("batch", "name"), ("reading", "typed")]
            if table in tables and book.asked(f"SELECT 1 FROM {table}", notebook)]  # fmt: skip


# --- what the checks must fail on -------------------------------------------------------------------

FORGETFUL = """#!/usr/bin/env python3
# Does what it is asked; then the last reading is gone, and half of each file that it was to make.
import contextlib, os, sqlite3, subprocess, sys
new = [word for word in sys.argv[1:] if not os.path.exists(word)]
code = subprocess.run(["@program@", *sys.argv[1:]]).returncode
for word in new:
    if os.path.isfile(word):
        os.truncate(word, os.path.getsize(word) // 2)
with contextlib.suppress(sqlite3.Error), sqlite3.connect(os.environ["AREO_NOTEBOOK"]) as db:
    db.execute("DROP TRIGGER IF EXISTS reading_is_never_deleted")
    db.execute("DELETE FROM reading WHERE id = (SELECT max(id) FROM reading WHERE id > 1)")
sys.exit(code)
"""

FRAGILE = """#!/usr/bin/env python3
# Crashes if it is to say something else than the first time it was asked.
import os, signal, subprocess, sys
done = subprocess.run(["@program@", *sys.argv[1:]], stdout=subprocess.PIPE)
sys.stdout.buffer.write(done.stdout)
if sys.argv[1:3] in (["export", "-"], ["batch", "show"], ["reading", "list"]):
    first = "first-" + os.path.basename(os.environ["AREO_NOTEBOOK"]) + sys.argv[1]
    if not os.path.exists(first):
        open(first, "wb").write(done.stdout)
    elif open(first, "rb").read() != done.stdout:
        os.kill(os.getpid(), signal.SIGSEGV)
sys.stdout.flush()
sys.exit(done.returncode)
"""
