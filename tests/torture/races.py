#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Several programs at one notebook at once, doing what only one may do at a time.

  races.py --program PATH
  races.py --program PATH --selftest       the checks must fail on one that forgets

AREO_TORTURE=N runs each race N times as often.
"""

import contextlib
import json
import re
import sqlite3
import subprocess
import sys
import threading

from attack import FORGETFUL, VERSIONS, Book, filled, older, require_copy, rounds, rows_of_older

from endurance import prepare, require_sound, together
from robust import main

ROWS = 300
MANY = 20_000


def all_at_once(book, commands):
    """(exit code, standard output, standard error) of each, all running at the same time."""
    started = [book.start(c, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE) for c in commands]
    return [(p.returncode, out.decode(), err.decode())
            for p, (out, err) in [(p, p.communicate(timeout=300)) for p in started]]  # fmt: skip


def all_good(book, commands):
    done = all_at_once(book, commands)
    for command, (code, _, err) in zip(commands, done):
        assert code == 0, f"`{command}` exits {code}: {err}"
    return [out for _, out, _ in done]


def one_table_imported_by_two(bench):
    """The rows are noted once; the other one is told that they are there."""
    empty, book = filled(bench, "empty.db", 0), Book(bench, "book.db")
    (bench.folder / "r.csv").write_text("date,reading,temperature\n" + "".join(
        f"2026-03-{1 + i // 24:02}T{i % 24:02}:00,1.0{59 - i // 10:02},21C\n" for i in range(ROWS)))  # fmt: skip
    for race in range(rounds(6)):
        book.copy_of(empty)
        told = all_good(book, ["import r.csv --batch PT-1 --yes"] * 2)
        there = book.rows("reading")
        assert there == ROWS, f"race {race}: {there} readings of {ROWS} rows: {told}"
        counts = sorted(tuple(map(int, re.match(r"(\d+) noted, (\d+) there", t).groups()))
                        for t in told)  # fmt: skip
        assert counts == [(0, ROWS), (ROWS, 0)], f"race {race}: {counts}"
    print(f"one table imported by two: {rounds(6)} races")


def one_export_brought_back_by_two(bench):
    full, book = filled(bench, "full.db", ROWS), Book(bench, "book.db")
    full.good("export out.jsonl")
    for _ in range(rounds(6)):
        book.remove()
        all_good(book, ["import out.jsonl"] * 2)
        assert book.good("export -") == full.good("export -")
    print(f"one export brought back by two: {rounds(6)} races")




class Writer:
    """Somebody who notes batches, each with a reading that is excluded again, without a rest. Not
    areo: as fast as can be."""

    def __init__(self, book, first):
        self.book, self.next = book, first
        self.begun, self.stop = threading.Event(), threading.Event()
        self.thread = threading.Thread(target=self.write)

    def __enter__(self):
        self.thread.start()
        assert self.begun.wait(timeout=300), "nothing is written"
        return self

    def __exit__(self, *_):
        self.stop.set()
        self.thread.join()

    def write(self):
        with contextlib.closing(sqlite3.connect(self.book.notebook, timeout=60)) as db:
            columns = {t: [c[1] for c in db.execute(f"PRAGMA table_info({t})")]
                       for t in ("batch", "reading")}  # fmt: skip
            rest = ", ".join(columns["batch"][2:])
            batch = f"INSERT INTO batch SELECT :n, name || :n, {rest} FROM batch WHERE id = 1"
            same = [":n" if c in ("id", "batch", "sample") else c for c in columns["reading"]]
            reading = f"INSERT INTO reading SELECT {', '.join(same)} FROM reading WHERE id = 1"
            exclusion = "INSERT INTO reading_exclusion (reading, at, at_s, excluded, reason) " \
                        "VALUES (:n, '2026-03-03T11:00:00+00:00', 1772535600, 1, 'bubbles')"  # fmt: skip
            while not self.stop.is_set():
                for sql in (batch, reading, exclusion):
                    with db:
                        db.execute(sql, {"n": self.next})
                self.next += 1
                self.begun.set()


def exports_while_others_write(bench):
    """An export is of one moment: it can be brought into an empty notebook, and holds the rows that
    were there before."""
    book = filled(bench, "full.db", MANY)
    exports = meanwhile = 0
    for race in range(rounds(3)):
        files = [f"out-{race}.jsonl", f"out-{race}-csv"]
        before = book.rows("reading")
        with Writer(book, before + 1) as writer:
            all_good(book, [["export", files[0]], ["export", "--csv", files[1]]])
        written = writer.next - before - 1
        meanwhile += written
        for file in files:
            back = Book(bench, "back.db")
            back.remove()
            code, _, err = back.run(["import", file])
            assert code == 0, f"race {race}: {file} cannot be brought back: {err}"
            assert before <= back.rows("reading") <= before + written
            # The writer noted these one after the other.
            batches, readings, excluded = (back.rows(t) for t in ("batch", "reading", "reading_exclusion"))
            assert batches - 1 >= readings - MANY >= excluded, (batches, readings, excluded)
            exports += 1
    print(f"exports while others write: {exports} exports, {meanwhile} readings meanwhile")


def backups_while_others_write(bench):
    """A backup is of one moment, whole, whoever writes meanwhile."""
    book, copy = filled(bench, "full.db", MANY), Book(bench, "copy.db")
    for _ in range(rounds(3)):
        copy.remove()
        before = book.rows("reading")
        with Writer(book, before + 1) as writer:
            book.good("backup copy.db")
        copy.require_whole()
        assert before <= copy.rows("reading") < writer.next
        assert "PT-1" in copy.good("batch list")
    print(f"backups while others write: {rounds(3)} backups")


def backups_under_one_name(bench):
    """One is made, whole; the others are told that there is one already, and leave nothing."""
    book, copy = filled(bench, "full.db", MANY), Book(bench, "copy.db")
    for race in range(rounds(5)):
        copy.remove()
        done = all_at_once(book, ["backup copy.db"] * 4)
        codes = sorted(code for code, _, _ in done)
        assert codes == [0, 4, 4, 4], f"race {race}: exit codes {codes}: {[err for _, _, err in done]}"
        assert all("is there already" in err for code, _, err in done if code), done
        left = [f.name for f in bench.folder.glob("copy.db*")]
        assert left == ["copy.db"], f"race {race}: {left}"
        copy.require_whole()
        assert copy.rows("reading") == MANY
    print(f"backups under one name: {rounds(5)} races of 4")


def older_one_opened_by_many(bench):
    """All succeed, the rows are there, and one whole copy."""
    races = 0
    for _ in range(rounds(2)):
        for version in range(1, VERSIONS):
            old = older(bench, version)
            rows, book = rows_of_older(old), Book(bench, "book.db")
            book.copy_of(old)
            races += 1
            where = f"race {races}, version {version}"
            commands = ["instrument list", "batch list"] * 3 + [
                f"batch add NEW-{n} --volume 5L --on 2026-03-01" for n in range(3)]  # fmt: skip
            for command, (code, _, err) in zip(commands, all_at_once(book, commands)):
                assert code == 0, f"{where}: `{command}` exits {code}: {err}"
            book.require_whole()
            assert book.asked("SELECT count(*) FROM batch WHERE name LIKE 'NEW%'") == [(3,)]
            now = rows_of_older(book)
            if version >= 3:
                now[1] = now[1][:1]  # the batches that were there before
            assert now[: 3 if version >= 3 else 1] == rows, where
            assert require_copy(book, version, rows), f"{where}: no copy"
            left = sorted(f.name for f in bench.folder.glob("book.db.*"))
            assert left == [f"book.db.version-{version}"], f"{where}: {left}"
            old.remove()
    print(f"an older one opened by many: {races} races of 9")


def crowd_reads_and_writes(bench):
    """Who reads sees all readings up to some moment, without a gap, and later ones later."""
    prepare(bench, 1)
    writers, each = 4, 6 * rounds(1)
    at_work, looks = [None] * writers, []

    def write():
        try:
            for _ in range(each):
                bench.good("reading add PT-1 1.020 --temp 21C --yes")
        finally:
            at_work.pop()

    def read():
        last = 0
        while at_work:
            listed = bench.good("reading list PT-1 --json").splitlines()
            numbers = sorted(json.loads(line)["reading"] for line in listed)
            assert numbers == list(range(1, len(numbers) + 1)), numbers
            assert len(numbers) >= last, f"{last} readings became {len(numbers)}"
            last = len(numbers)
            looks.append(last)

    together([write] * writers + [read] * 2)
    assert sorted(require_sound(bench)) == list(range(1, 2 + writers * each))
    print(f"a crowd: {writers * each} readings of {writers} writers, {len(looks)} looks")


CHECKS = [one_table_imported_by_two, one_export_brought_back_by_two, exports_while_others_write,
          backups_while_others_write, backups_under_one_name, older_one_opened_by_many,
          crowd_reads_and_writes]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS, FORGETFUL))
