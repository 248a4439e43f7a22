#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program is killed at any moment, whatever it is doing to a notebook.

  kills.py --program PATH
  kills.py --program PATH --selftest       the checks must fail on one that forgets

AREO_TORTURE=N kills N times as often.
"""

import signal
import subprocess
import sys
import time

from attack import FORGETFUL, VERSIONS, Book, chance, filled, older, require_copy, rounds, rows_of_older

from endurance import acknowledged, bench_input, note_at_bench, prepare, require_sound
from robust import main

KILLS = rounds(100)
KILLS_OF_OTHERS = rounds(20)
ROWS = 400


def killed_at_the_bench(bench):
    """What was acknowledged is there after a kill; the notebook stays sound and usable."""
    luck = chance(killed_at_the_bench)
    prepare(bench)
    readings = [f"1.0{i:02}" for i in range(10, 40)]
    started = time.monotonic()
    known = dict(zip(note_at_bench(bench, readings), readings))
    assert len(known) == len(readings)
    span = time.monotonic() - started
    answers, log = bench.folder / "answers", bench.folder / "log"
    answers.write_bytes(bench_input(readings))
    kills = acknowledgements = 0
    while kills < KILLS:
        delay = luck.uniform(0, span)
        where = f"kill {kills + 1} after {delay:.4f} s"
        with answers.open("rb") as given, log.open("wb") as out:
            process = bench.start("bench PT-1 --yes", stdin=given, stdout=out)
            time.sleep(delay)
            process.kill()
            err = process.communicate()[1].decode()
        assert process.returncode in (-signal.SIGKILL, 0), f"{where}: {err}"
        kills += process.returncode != 0
        ids = acknowledged(log.read_text())
        acknowledgements += len(ids)
        known |= zip(ids, readings)
        # Who opens it first has to put it in order: areo and others by turns.
        if kills % 4 == 0:
            assert f'"reading":{max(known)},' in bench.good("reading list PT-1 --json"), where
        there = require_sound(bench)
        lost = known.items() - there.items()
        assert not lost, f"{where}: lost {sorted(lost)}"
        assert len(there) <= len(known) + kills, f"{where}: more than what was being written"
    assert acknowledgements > KILLS, f"only {acknowledgements} acknowledgements"
    last = note_at_bench(bench, ["1.010"])
    assert require_sound(bench)[last[0]] == "1.010"
    print(f"at the bench: {kills} kills, {acknowledgements} acknowledgements")


def killed(book, command, prepare_for, look_at, check):
    """Kills `command` at any moment, each time on what prepare_for() makes anew; look_at() is told
    whether it was done before, and returns what it found, which is counted. How long the command
    takes depends on who else is busy: the moments reach as far as it was last seen to run."""
    prepare_for()
    started = time.monotonic()
    book.good(command)
    span = time.monotonic() - started
    look_at(True)
    luck = chance(check)
    found = {}
    kills = 0
    while kills < KILLS_OF_OTHERS:
        prepare_for()
        delay = luck.uniform(0, span)
        process = book.start(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE)
        time.sleep(delay)
        process.kill()
        _, err = process.communicate()
        assert process.returncode in (-signal.SIGKILL, 0), err.decode()
        kills += process.returncode != 0
        span *= 1.15 if process.returncode else 0.75
        try:
            state = look_at(process.returncode == 0)
        except AssertionError as e:
            raise AssertionError(f"kill {kills} after {delay:.4f} s: {e}") from e
        found[state] = found.get(state, 0) + 1
    print(f"{check.__name__}: {kills} kills: {found}")


def killed_while_importing(bench):
    """Rows of a table are noted all at once or not at all, and never twice."""
    empty, book = filled(bench, "empty.db", 0), Book(bench, "book.db")
    table = bench.folder / "r.csv"
    table.write_text("date,reading,temperature\n" + "".join(
        f"2026-03-{1 + i // 24:02}T{i % 24:02}:00,1.0{59 - i // 10:02},21C\n" for i in range(ROWS)))  # fmt: skip

    def look(done):
        book.require_whole()
        there = book.rows("reading")
        assert there in ((ROWS,) if done else (0, ROWS)), f"{there} of {ROWS} rows"
        told = book.good("import r.csv --batch PT-1 --yes")
        assert f"{ROWS - there} noted, {there} there already, 0 refused" in told, told
        assert book.rows("reading") == ROWS
        return "all there" if there else "nothing there"

    killed(book, "import r.csv --batch PT-1 --yes", lambda: book.copy_of(empty), look,
           killed_while_importing)  # fmt: skip


def killed_while_bringing_back(bench):
    """An export is brought back whole or not at all, and can be brought back again."""
    full, book = filled(bench, "full.db", ROWS), Book(bench, "book.db")
    full.good("export out.jsonl")
    expected = full.good("export -")

    def look(done):
        there = 0
        if book.notebook.exists() and book.asked("SELECT 1 FROM sqlite_schema"):
            book.require_whole()
            there = book.rows("reading")
        assert there in ((ROWS,) if done else (0, ROWS)), f"{there} of {ROWS} rows"
        book.good("import out.jsonl")
        assert book.good("export -") == expected
        return "all there" if there else "nothing there"

    killed(book, "import out.jsonl", book.remove, look, killed_while_bringing_back)


def killed_while_backing_up(bench):
    """Under its name a backup is complete; and one can be made under that name afterwards."""
    book = filled(bench, "full.db", ROWS)
    copy = Book(bench, "copy.db")

    def look(done):
        there = copy.notebook.exists()
        assert there or not done, "no backup"
        if not there:
            book.good("backup copy.db")
        copy.require_whole()
        assert copy.rows("reading") == ROWS
        return "complete" if there else "no backup"

    killed(book, "backup copy.db", copy.remove, look, killed_while_backing_up)


def killed_while_exporting(bench):
    """Under its name an export is complete."""
    book = filled(bench, "full.db", ROWS)
    expected, out = book.good("export -"), bench.folder / "out.jsonl"

    def look(done):
        there = out.exists()
        assert there or not done, "no export"
        if there:
            assert out.read_text() == expected, "half an export"
        return "complete" if there else "no export"

    killed(book, "export out.jsonl", lambda: out.unlink(missing_ok=True), look,
           killed_while_exporting)  # fmt: skip


def killed_while_brought_up_to_date(bench):
    """An older notebook is as before or as after, and its copy is there before anything changes."""
    version = 3
    old, book = older(bench, version), Book(bench, "book.db")
    rows = rows_of_older(old)

    def look(done):
        book.require_whole()
        now = book.asked("PRAGMA user_version")[0][0]
        assert now in ((VERSIONS,) if done else (version, VERSIONS)), f"version {now}"
        copied = require_copy(book, version, rows)
        assert copied or now == version, "brought up to date without a copy"
        assert "PT-1" in book.good("batch list")
        assert book.asked("PRAGMA user_version") == [(VERSIONS,)]
        assert rows_of_older(book) == rows, "it has other rows"
        return f"version {now}, {'a' if copied else 'no'} copy"

    killed(book, "batch list", lambda: book.copy_of(old), look, killed_while_brought_up_to_date)


CHECKS = [killed_at_the_bench, killed_while_importing, killed_while_bringing_back,
          killed_while_backing_up, killed_while_exporting,
          killed_while_brought_up_to_date]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS, FORGETFUL))
