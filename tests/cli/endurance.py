#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The notebook under bad treatment: crowds, rights, damage.

  endurance.py --program PATH
  endurance.py --selftest       the checks must fail on a program that does everything wrong
"""

import contextlib
import os
import random
import re
import shutil
import sqlite3
import subprocess
import sys
import threading

from robust import STEM, Bench, main

SEED = 20260301


def prepare(bench, readings=0):
    bench.good(STEM)
    bench.good("batch add PT-1 --volume 5L --on 2026-03-01")
    if readings:
        numbers = note_at_bench(bench, [f"1.0{i % 90:02}" for i in range(readings)])
        assert numbers == list(range(1, readings + 1)), numbers


def bench_input(readings):
    """A reading, its temperature, and yes."""
    return "".join(f"{r}\n21C\n\n" for r in readings).encode()


def acknowledged(log):
    return [int(n) for n in re.findall(r"noted as reading (\d+)", log)]


def note_at_bench(bench, readings):
    """Numbers of the readings."""
    code, out, err = bench.run("bench PT-1 --yes", bench_input(readings))
    assert code == 0, err
    return acknowledged(out)


def require_sound(bench, notebook=None):
    with contextlib.closing(sqlite3.connect(notebook or bench.notebook)) as db:
        found = db.execute("PRAGMA integrity_check").fetchall()
        assert found == [("ok",)], found
        return dict(db.execute("SELECT id, typed FROM reading"))


def refused(bench, command, *parts, given=b""):
    code, _, err = bench.run(command, given)
    assert code == 4, f"`{command}` exits {code}: {err}"
    for part in (str(bench.notebook), *parts):
        assert part in err, f"`{command}` does not say {part!r}: {err}"


def together(actions):
    """Runs all at the same time; the first failure of any is that of all."""
    failures = []

    def guarded(action):
        try:
            action()
        except Exception as e:  # noqa: BLE001
            failures.append(e)

    threads = [threading.Thread(target=guarded, args=(a,)) for a in actions]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    if failures:
        raise AssertionError(str(failures[0]))


def a_crowd_makes_one(bench):
    """Everybody makes the notebook at the same time; one does, and all are in it."""
    for _ in range(15):
        together([lambda n=n: bench.good(f"batch add PT-{n}") for n in range(8)])
        assert bench.rows("batch") == 8
        assert not list(bench.folder.glob("*version*"))
        for file in bench.folder.glob("notebook.db*"):
            file.unlink()


def a_crowd_writes(bench):
    """Sessions at the bench and single commands at once: no reading is lost, no number twice."""
    prepare(bench)
    numbers = []

    def sit_at_the_bench():
        numbers.extend(note_at_bench(bench, ["1.048"] * 20))

    def call_again_and_again():
        for _ in range(8):
            shown = bench.good("reading add PT-1 1.020 --temp 21C --yes")
            numbers.append(int(re.search(r"\(reading (\d+)\)", shown)[1]))

    long_one = bench.start("bench PT-1 --yes", stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    long_one.stdin.write(bench_input(["1.030"]))
    long_one.stdin.flush()
    together([sit_at_the_bench] * 2 + [call_again_and_again] * 3)
    out, _ = long_one.communicate(bench_input(["1.031"]), timeout=300)
    numbers.extend(acknowledged(out.decode()))
    assert len(numbers) == 2 * 20 + 3 * 8 + 2, len(numbers)
    assert sorted(numbers) == list(range(1, len(numbers) + 1)), sorted(numbers)
    assert sorted(require_sound(bench)) == sorted(numbers)


def held_by_another(bench):
    """Who waits for too long is told so; then it works again. Nobody has to wait to read."""
    prepare(bench, 1)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("BEGIN IMMEDIATE")
        assert "1 reading" in bench.good("batch list")
        refused(bench, "reading add PT-1 1.020 --temp 21C --yes", "another program is writing")
        db.execute("ROLLBACK")
    assert note_at_bench(bench, ["1.021"]) == [2]


# --- rights -----------------------------------------------------------------------------------------


class Nobody(Bench):
    """Root may write everywhere, so it is somebody else."""

    def __init__(self, bench):
        super().__init__(bench.folder / "program", str(bench.folder))
        shutil.copy(bench.program, self.program)
        self.folder = bench.folder / "shelf"
        self.folder.mkdir()
        self.notebook = self.folder / "notebook.db"
        self.environment["AREO_NOTEBOOK"] = str(self.notebook)
        bench.folder.chmod(0o755)

    def start(self, command, **more):
        if os.geteuid() == 0:
            more |= {"user": 65534, "group": 65534, "extra_groups": []}
        return super().start(command, **more)

    def lock(self, folder, file):
        self.notebook.chmod(file)
        self.folder.chmod(folder)


READ = ["batch show PT-1", "batch list", "reading list PT-1", "instrument list",
        "correct 1.048 --temp 20C --instrument stem-1"]  # fmt: skip
WRITE = ["reading add PT-1 1.020 --temp 21C --yes", "batch close PT-1", "bench PT-1",
         "instrument add stem-2 --from 1 --to 1.1 --division 0.002"]  # fmt: skip


def look_but_not_touch(bench):
    """What cannot be written can be read, and says what is wrong when it shall be written."""
    prepare(bench, 3)
    nobody = Nobody(bench)
    shutil.move(bench.notebook, nobody.notebook)
    before = nobody.notebook.read_bytes()
    nobody.lock(0o777, 0o666)
    expected = [nobody.good(c) for c in READ]
    nobody.lock(0o755, 0o644)
    try:
        for folder, file in [(0o777, 0o444), (0o555, 0o666), (0o555, 0o444)]:
            nobody.lock(folder, file)
            assert [nobody.good(c) for c in READ] == expected
            for command in WRITE:
                refused(nobody, command, "check that file and folder exist and may be written")
            assert nobody.notebook.read_bytes() == before, f"{folder:o} {file:o}"
            left = [f.name for f in nobody.folder.iterdir() if f != nobody.notebook]
            assert not left, f"{folder:o} {file:o}: {left}"
    finally:
        nobody.lock(0o777, 0o666)
    assert note_at_bench(nobody, ["1.020"]) == [4]


def last_readings_beside_it(bench):
    """What was noted last is not passed over in silence where it cannot be joined to the rest."""
    prepare(bench, 3)
    nobody = Nobody(bench)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("SELECT count(*) FROM reading").fetchone()  # keeps areo from tidying up
        note_at_bench(bench, ["1.044"])
        for ending in ("", "-wal"):
            shutil.copy(str(bench.notebook) + ending, str(nobody.notebook) + ending)
    nobody.lock(0o555, 0o444)
    try:
        refused(nobody, "batch show PT-1", "beside it", "copy ")
    finally:
        nobody.lock(0o777, 0o666)
        for file in nobody.folder.iterdir():
            file.chmod(0o666)
    assert "1.044" in nobody.good("batch show PT-1")


# --- damage -----------------------------------------------------------------------------------------


def noise(content, first, last):
    chance = random.Random(SEED)
    return content[:first] + chance.randbytes(last - first) + content[last:]


def root_of(bench, table):
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        row = db.execute("SELECT rootpage FROM sqlite_schema WHERE name = ?", (table,)).fetchone()
    assert row, f"no table {table}"
    return (row[0] - 1) * 4096, row[0] * 4096


def damages(bench):
    """What can happen to a file, by name."""
    whole = bench.notebook.read_bytes()
    middle = len(whole) // 8192 * 4096
    first, last = root_of(bench, "reading")
    yield "no header", bytes(100) + whole[100:]
    yield "no first page", bytes(4096) + whole[4096:]
    yield "half of it", whole[:middle]
    yield "the end is missing", whole[:-4096]
    yield "cut within a page", whole[: middle + 1000]
    yield "noise in a table", noise(whole, first, last)
    yield "noise in a part of a table's page", noise(whole, first + 8, first + 64)
    first, last = root_of(bench, "batch")
    yield "noise in a small table", noise(whole, first, first + 100)
    first, last = root_of(bench, "reading_by_batch")
    yield "noise in an index", noise(whole, first, last)
    first, last = root_of(bench, "check_reading")
    yield "noise where nobody reads", noise(whole, first, last)


def damaged(bench):
    """Damage is named by every command, and left as it is for whoever can mend it."""
    prepare(bench, 100)
    whole = bench.notebook.read_bytes()
    for name, content in damages(bench):
        assert content != whole, name
        bench.notebook.write_bytes(content)
        for command in READ[:4] + WRITE + ["batch add PT-2"]:
            try:
                refused(bench, command, "areo: error: ", "hint: ")
            except AssertionError as e:
                raise AssertionError(f"{name}: {e}") from e
            assert bench.notebook.read_bytes() == content, f"{name}: `{command}` writes"
            for beside in bench.folder.glob("notebook.db-*"):
                assert beside.name.endswith("-shm") or beside.stat().st_size == 0, beside
    bench.notebook.write_bytes(whole)
    assert note_at_bench(bench, ["1.020"]) == [101]


def emptied(bench):
    """An emptied file does not take the readings beside it with it."""
    prepare(bench, 1)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("SELECT count(*) FROM reading").fetchone()
        note_at_bench(bench, ["1.044"])
        beside = bench.folder / "notebook.db-wal"
        content = beside.read_bytes()
    bench.notebook.write_bytes(b"")
    beside.write_bytes(content)
    for command in ("batch list", "batch add PT-2"):
        refused(bench, command, "is empty, but its last readings")
        assert beside.read_bytes() == content and bench.notebook.read_bytes() == b""


CHECKS = [a_crowd_makes_one, a_crowd_writes, held_by_another,
          look_but_not_touch, last_readings_beside_it, damaged, emptied]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
