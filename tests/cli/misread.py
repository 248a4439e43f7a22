#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the notebook once took without a word, or could not get past: moments, names, files, imports.

  misread.py --program PATH
  misread.py --selftest       the checks must fail on a program that does everything wrong
"""

import contextlib
import json
import os
import resource
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys

from robust import GROWTH_KIB, STEM, WATER, main

READING = "reading add PT-1 1.020 --temp 20C --on 2026-03-05T10:00Z"


def begin(bench):
    bench.good(STEM)
    bench.good("batch add PT-1 --volume 5L --on 2026-03-01")


def begun(bench):
    begin(bench)
    bench.good(READING)


def fails(bench, command, *parts, code=4):
    got, out, err = bench.run(command)
    assert got == code, f"`{command}` exits {got}: {out}{err}"
    for part in parts:
        assert part in err, f"`{command}` does not say {part!r}: {err}"
    return err


def count(bench, table="reading"):
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        return db.execute(f"SELECT count(*) FROM {table}").fetchone()[0]


def old_zones(bench):
    """A local mean time, and a zone 16 hours behind, are read again as they were written."""
    for zone in ("Asia/Manila", "Europe/Amsterdam", "America/Juneau"):
        bench.environment["TZ"] = zone
        bench.notebook.unlink(missing_ok=True)
        bench.good(STEM)
        bench.good("batch add PT-1 --volume 5L --on 0206-03-01 --yes")
        bench.good("reading add PT-1 1.048 --temp 20C --on 0206-03-05 --yes")
        rows = bench.folder / "rows.csv"
        rows.write_text("date,reading,temperature\n0206-03-06,1.040,20C\n")
        bench.good(f"import {rows} --batch PT-1 --yes")
        for command in ("batch show PT-1", "batch list", "reading list PT-1"):
            assert "1.048" in bench.good("reading list PT-1"), zone
            bench.good(command)
        back = bench.folder / f"{zone.replace('/', '-')}.jsonl"
        bench.good(f"export {back}")
        bench.environment["TZ"] = "UTC"
        bench.good(f"--notebook {bench.folder / 'other.db'} import {back}")
        (bench.folder / "other.db").unlink()


def unreadable_row(bench):
    """A row that nobody can read is named; the others are shown."""
    begun(bench)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute(
            "INSERT INTO reading SELECT 7, batch, bottle, 7, what, '2026-03-06T10:00:00+99:00', "
            "made_at_s + 86400, noted_at, noted_at_s, instrument, '1.018', 1.018, half_width, "
            "temperature_typed, temperature_c, temperature_half_width_c, thermometer, meniscus, "
            "degassed, person, note, amends, reason FROM reading WHERE id = 1")
        db.execute(
            "INSERT INTO batch SELECT 9, 'PT-9', drink, culture, vessel, volume_typed, volume_l, "
            "extract, liquid, 'x', started_at_s, note FROM batch")
        db.commit()
    for command in ("batch show PT-1", "reading list PT-1", "trend PT-1"):
        code, out, err = bench.run(command)
        assert code == 0 and "1.020" in out and "1.018" not in out, f"{command}: {out}{err}"
        assert err.count("reading 7 cannot be read") == 1, err
    code, out, err = bench.run("batch list --json")
    assert code == 0 and '"PT-1"' in out, err
    told = [json.loads(x)["warning"]["message"] for x in err.splitlines()]
    assert any("batch 9 ('PT-9')" in x for x in told), told
    fails(bench, "batch show PT-9", "batch 9 cannot be read")


def only_files(bench):
    """Only an ordinary file is a notebook: nothing else would keep anything."""
    begun(bench)
    for name in (":memory:", "file:x?mode=memory", "file::memory:?cache=shared"):
        fails(bench, ["--notebook", name, *STEM.split()], "nothing would be kept")
    bench.good(["--notebook", "./:memory:", *STEM.split()])
    assert (bench.folder / ":memory:").stat().st_size > 0
    loop = bench.folder / "loop"
    loop.symlink_to(loop)
    fifo = bench.folder / "fifo"
    os.mkfifo(fifo)
    for name in (loop, "/dev/zero", "/dev/null", fifo, bench.folder):
        for command in ("batch list", STEM, "instrument list"):
            fails(bench, ["--notebook", str(name), *command.split()])


def empty_file(bench):
    """A file of no bytes is no notebook: perhaps it was one."""
    bench.notebook.touch()
    for command in ("batch list", STEM, "instrument list"):
        fails(bench, command, "is empty", "last backup")
    assert bench.notebook.stat().st_size == 0


def unknown_versions(bench):
    """A version that no areo ever wrote is refused and left as it is."""
    begun(bench)
    for version in (-1, -(2**31), 99):
        with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
            db.execute(f"PRAGMA user_version = {version}")
        fails(bench, "batch list")
        fails(bench, READING)
        with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
            assert db.execute("PRAGMA user_version").fetchone() == (version,)


def bars_in_words(bench):
    """Two readings that differ only in where a | stands are two."""
    begin(bench)
    rows = bench.folder / "rows.csv"
    for known, words in enumerate(("a|b,c", "a,b|c")):
        rows.write_text(f"date,reading,temperature,person,note\n2026-03-05,1.020,20C,{words}\n")
        bench.good(f"import {rows} --batch PT-1 --yes")
        assert count(bench) == known + 1, words
        out = bench.good(f"import {rows} --batch PT-1 --yes")
        assert count(bench) == known + 1 and "1 there already" in out, out


def imports_at_once(bench):
    """One file, imported by several at the same time, is noted once."""
    begin(bench)
    rows = bench.folder / "rows.csv"
    for turn in range(5):
        day = f"2026-03-{turn + 2:02}"
        rows.write_text("date,reading,temperature\n" + "".join(
            f"{day}T{h:02}:00Z,1.0{40 - turn},20C\n" for h in range(24)))
        started = [bench.start(f"import {rows} --batch PT-1 --yes", stdout=subprocess.PIPE)
                   for _ in range(4)]
        for process in started:
            out, err = process.communicate(timeout=300)
            assert process.returncode == 0, (out, err)
        assert count(bench) == 24 * (turn + 1), f"turn {turn}: {count(bench)}"


def told_or_not(bench):
    """What could not be told was noted nevertheless; that is said, and a retry asks."""
    begin(bench)
    command = "reading add PT-1 1.020 --temp 20C"
    with open("/dev/full", "wb") as full:
        code, _, err = bench.run(command, stdout=full)
    assert code == 4 and "it is noted, but" in err and "do not type it again" in err, err
    assert count(bench) == 1
    code, out, err = bench.run(command)
    assert code == 3 and "typed twice?" in out + err, out + err
    assert count(bench) == 1
    with open("/dev/full", "wb") as full:
        code, _, err = bench.run("batch list", stdout=full)
    assert code == 4 and "it is noted" not in err, err


def words_as_typed(bench):
    """An empty value takes no other word in; brackets are no list."""
    begin(bench)
    bench.good(READING.split() + ["--note=", "--original"])
    assert '"stage":"original"' in bench.good("reading list PT-1 --json")
    fails(bench, "report PT-1 --out= --json", code=2)
    assert not (bench.folder / "--json").exists()
    bench.good(["batch", "add", "[a,b]", "--volume", "5L", "--on", "2026-03-01", "--note=[c,d]"])
    shown = json.loads(bench.good(["batch", "show", "[a,b]", "--json"]).splitlines()[0])
    assert "[a,b]" in json.dumps(shown), shown
    fails(bench, ["reading", "add", "PT-1", "[1.020,1.022]", "--temp", "20C"], "[1.020,1.022]",
          code=3)
    err = fails(bench, ["reading", "add", "PT-1", "1.020", "--", "--temp", "20C"], code=2)
    assert "did you mean '--temp'" not in err and "options go before --" in err, err


def names_in_commands(bench):
    """A command that is proposed can be pasted: a name in it stays one word."""
    bench.good(STEM)
    out = bench.good(["batch", "add", "x; touch y", "--volume", "5L", "--on", "2026-03-01"])
    assert "areo reading add 'x; touch y' " in out, out
    out = bench.good(["instrument", "add", "it's", "--division", "0.002"])
    assert "areo calibrate water 'it'\\''s' " in out, out


EDITS = [
    ("batch", "started_at", "x"),
    ("batch", "started_at", "2026-03-02T00:00:00+00:00"),  # its seconds say another moment
    ("batch", "volume_l", -1),
    ("batch", "id", 2**63 - 1),
    ("batch", "id", 2**64 - 1),
    ("batch", "id", 0),
    ("reading", "id", 2**63 - 1),
    ("reading", "indication", 1.084),
    ("reading", "indication", "x"),
    ("reading", "typed", "1.084"),
    ("reading", "temperature_c", 1e308),
    ("reading", "temperature_c", 150),
    ("reading", "half_width", -0.001),
    ("reading", "thermometer", 1),
    ("reading", "batch", 7),
    ("instrument", "division", 0.5),
    ("instrument", "lo", 1.2),
    ("instrument", "added_at", "yesterday"),
    ("check_reading", "reading", 1.5),
    ("check_reading", "method", "ice"),
    ("check_reading", "instrument", 2),
    ("addition", "mass_g", -4),
]


def edited_exports(bench):
    """A row that could not have been typed does not come in by an import, and nothing else does."""
    begun(bench)
    bench.good(WATER)
    bench.good("instrument add t-1 --kind thermometer --division 1C")
    bench.good("addition add sugar PT-1 20g --on 2026-03-04")
    sound = bench.folder / "sound.jsonl"
    bench.good(f"export {sound}")
    new = bench.folder / "new.db"
    into = ["--notebook", str(new), "import"]
    bench.good([*into, str(sound)])
    assert sound.is_file() and new.is_file()
    new.unlink()
    lines = sound.read_text().splitlines()
    edited = bench.folder / "edited.jsonl"
    for table, column, value in EDITS:
        out = []
        hit = 0
        for line in lines:
            row = json.loads(line)
            if row.get("table") == table and column in row["row"]:
                row["row"][column] = value
                hit += 1
            out.append(json.dumps(row))
        assert hit, (table, column)
        edited.write_text("\n".join(out) + "\n")
        code, said, err = bench.run([*into, str(edited)])
        assert code in (3, 4), f"{table}.{column} = {value} exits {code}: {said}{err}"
        with contextlib.closing(sqlite3.connect(new)) as db:
            assert db.execute("SELECT count(*) FROM batch").fetchone() == (0,), (table, column)
        new.unlink()
    folder = bench.folder / "csv"
    bench.good(f"export --csv {folder}")
    readings = folder / "reading.csv"
    for number in ("inf", "nan", "-inf"):
        text = readings.read_text()
        readings.write_text(text.replace(",1.02,", f",{number},", 1))
        assert readings.read_text() != text
        fails(bench, [*into, str(folder)])
        readings.write_text(text)


def strange_files(bench):
    """What is nested without end, and a header without end, are answered."""
    begin(bench)
    deep = bench.folder / "deep.json"
    for text in ("[" * 100_000, '{"a":' * 100_000, "[" * 100_000 + "]" * 100_000,
                 '{"areo":1}\n{"table":"batch","row":' + "[" * 100_000):
        deep.write_text(text)
        code, _, err = bench.run(f"import {deep}")
        assert code in (1, 3, 4), f"exits {code}: {err[:200]}"
    wide = bench.folder / "wide.csv"
    wide.write_text("date,reading," + ",".join(f"c{i}" for i in range(238_000)) + "\n2026-03-05,1.020" +
                    "," * 238_000 + "\n")
    code, _, err = bench.run(f"import {wide} --batch PT-1")
    assert code in (0, 1, 4), err[:200]
    rows = bench.folder / "rows.csv"
    rows.write_text("date,reading\n2026-03-05,1.020\n")
    fails(bench, f"import {rows} --batch PT-1 --map /dev/zero", "longer than any mapping")


def few_files(bench):
    """Where only so many files may be open, what is not done leaves nothing behind."""
    begun(bench)
    before = set(bench.folder.iterdir())
    done = refused = 0
    for most in range(3, 24):
        for name, command in [("out.jsonl", "export out.jsonl"), ("tables", "export --csv tables"),
                              ("copy.db", "backup copy.db"), ("new.db", f"--notebook new.db {STEM}")]:
            process = bench.start(command, stdout=subprocess.PIPE, preexec_fn=lambda: resource.setrlimit(
                resource.RLIMIT_NOFILE, (most, most)))  # fmt: skip
            out, err = process.communicate(timeout=300)
            made = {p for p in bench.folder.iterdir() if not p.name.startswith("notebook.db")} - before  # SQLite's own
            done += process.returncode == 0
            refused += process.returncode != 0
            # A new notebook is whole before anything is noted in it.
            whole = {name, f"{name}-wal"} if name == "new.db" else {name}
            allowed = whole if process.returncode == 0 or name == "new.db" else set()
            assert {p.name for p in made} <= allowed, f"`{command}` with {most} files {err}: {made}"
            assert process.returncode or bench.folder / name in made, f"`{command}` with {most} files"
            for path in made:
                shutil.rmtree(path) if path.is_dir() else path.unlink()
    assert done and refused, (done, refused)


def long_tables(bench):
    """Three times the readings of a batch in the same memory, from a file and through a pipe."""
    peaks = []
    for rows in (20_000, 60_000):
        bench.notebook.unlink(missing_ok=True)
        begin(bench)
        table = bench.folder / "rows.csv"
        table.write_text("date,reading,temperature\n" + "".join(
            f"2026-04-{1 + i // 2880:02}T{i // 120 % 24:02}:{i // 2 % 60:02}:{i % 2 * 30:02}Z,"
            f"{1.05 - 0.04 * i / rows:.4f},20C\n" for i in range(rows)))
        for command in (f"import {table} --batch PT-1", "import - --batch PT-1 --dry-run"):
            with table.open("rb") as given:
                process = bench.start(command, stdin=given, stdout=subprocess.PIPE)
            out = process.stdout.read().decode()
            err = process.stderr.read().decode()
            process.stdout.close()
            process.stderr.close()
            _, status, usage = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            assert process.returncode == 0, out + err
            if "dry" not in command:
                assert out.startswith(f"{rows} noted"), out
                peaks.append(usage.ru_maxrss)
            else:
                assert f"{rows} there already" in out, out
    assert peaks[1] < peaks[0] + GROWTH_KIB, f"{peaks[0]} KiB grow to {peaks[1]} KiB"


def files_in_the_way(bench):
    """Nothing beside a file is followed, replaced or deleted; a page keeps the rights it had."""
    begun(bench)
    other = bench.folder / "other.db"
    shutil.copy(bench.notebook, other)
    before = other.read_bytes()
    page = bench.folder / "page.html"
    for name in ("page.html.partial", "backup.db.partial", "export.jsonl.partial"):
        (bench.folder / name).symlink_to(other)
    bench.good(f"report PT-1 --out {page}")
    bench.good(f"backup {bench.folder / 'backup.db'}")
    bench.good(f"export {bench.folder / 'export.jsonl'}")
    assert other.read_bytes() == before
    assert (bench.folder / "page.html.partial").is_symlink()
    assert not [f for f in bench.folder.iterdir() if f.name.startswith("page.html.")
                and f.name != "page.html.partial"]
    page.chmod(0o600)
    bench.good(f"report PT-1 --out {page}")
    assert stat.S_IMODE(page.stat().st_mode) == 0o600
    bench.notebook.chmod(0o600)
    private = bench.folder / "private.db"
    bench.good(f"backup {private}")
    assert stat.S_IMODE(private.stat().st_mode) == 0o600
    fifo = bench.folder / "fifo.html"
    os.mkfifo(fifo)
    fails(bench, f"report PT-1 --out {fifo}", "not an ordinary file")
    for end in ("-journal", "-wal", "-shm"):
        fails(bench, f"export {bench.notebook}{end}")
        fails(bench, f"backup {bench.notebook}{end}")
        fails(bench, f"report PT-1 --out {bench.notebook}{end}", code=3)


def damaged_index(bench):
    """One other byte in an index is seen, before anything is shown from it."""
    begun(bench)
    for day in range(6, 26):
        bench.good(f"reading add PT-1 1.0{40 - day} --temp 20C --on 2026-03-{day:02} --yes")
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        index = db.execute("SELECT rootpage, (SELECT page_size FROM pragma_page_size) FROM "
                           "sqlite_schema WHERE name = 'reading_by_batch'").fetchone()
    assert index, "no index"
    root, size = index
    whole = bench.notebook.read_bytes()
    page = range((root - 1) * size, root * size)
    # The last bytes of a page are cells: here the moment and number of a reading.
    for place in list(page)[-60::4]:
        bench.notebook.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1:])
        for side in ("-wal", "-shm"):
            (bench.folder / f"notebook.db{side}").unlink(missing_ok=True)
        fails(bench, "batch show PT-1", "damaged")
    bench.notebook.write_bytes(whole)


HOLDER = """
import fcntl, os, signal, struct, sys, time
file = os.open(sys.argv[1], os.O_RDWR)
# SQLite's exclusive lock: all of its shared bytes.
fcntl.lockf(file, fcntl.LOCK_EX, 510, 0x40000002)
print("held", flush=True)
os.kill(os.getpid(), signal.SIGSTOP)
"""


@contextlib.contextmanager
def held(bench):
    """The notebook in the hand of a process that stands still; its number."""
    holder = subprocess.Popen([sys.executable, "-c", HOLDER, str(bench.notebook)],
                              stdout=subprocess.PIPE)
    assert holder.stdout.readline() == b"held\n"
    try:
        os.waitpid(holder.pid, os.WUNTRACED)
        yield holder.pid
    finally:
        holder.send_signal(signal.SIGCONT)
        holder.kill()
        holder.communicate()


def stopped_holder(bench):
    """A process that stands still with the notebook in its hand keeps no reader out, and is named."""
    begun(bench)
    with held(bench) as holder:
        assert "PT-1" in bench.good("batch list")
        assert "1.020" in bench.good("batch show PT-1")
        fails(bench, READING.replace("10:00", "11:00"), f"process {holder}", "stopped")
    bench.good(READING.replace("10:00", "11:00"))


def empty_table(bench):
    """A table without one cell is refused: there is nothing in it."""
    fails(bench, "table refractometer --originals 0.990 --json", code=3)
    assert bench.good("table refractometer --originals 10 --json")


CHECKS = [
    old_zones, unreadable_row, only_files, empty_file, unknown_versions, bars_in_words,
    imports_at_once, told_or_not, words_as_typed, names_in_commands, edited_exports, strange_files, few_files,
    long_tables, files_in_the_way, damaged_index, stopped_holder, empty_table,
]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
