#!/usr/bin/env python3
"""What a second try, a reader that is gone, a cut file and a full disk leave behind.

  retries.py --program PATH
  retries.py --selftest       the checks must fail on a program that does everything wrong
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

from misread import HOLDER, READING, begun, count, fails
from robust import WATER, main


def second_tries(bench):
    """The same fit, pair and amendment once more change nothing, unless somebody insists."""
    begun(bench)
    bench.good(WATER)
    fit = "calibrate fit stem-1 --from 2026-03-02"
    bench.good(fit)
    fails(bench, fit, "in force", code=3)
    assert count(bench, "calibration") == 1
    bench.good("batch amend PT-1 --volume 4.6L --reason measured")
    fails(bench, "batch amend PT-1 --volume 4.6L --reason measured", "is so already", code=3)
    bench.good("batch amend PT-1 --volume 4.6L --vessel jar --reason moved")
    assert count(bench, "batch_amendment") == 2
    bench.good("instrument add prism-1 --kind refractometer")
    pair = "liquid pair juice 12.6Bx 1.050 --temp 20C --instrument prism-1 --hydrometer stem-1"
    bench.good(pair)
    code, out, err = bench.run(pair)
    assert code == 3 and "typed twice?" in out + err, out + err
    assert count(bench, "liquid_pair") == 1
    bench.good(pair + " --yes")
    assert count(bench, "liquid_pair") == 2


def gone_readers(bench):
    """A reader that went ends a list, as always; what was noted meanwhile is told as such."""
    begun(bench)
    for command, noted in ((READING.replace("10:00", "11:00"), True), ("batch list", False)):
        before = count(bench)
        read, write = os.pipe()
        os.close(read)
        with os.fdopen(write, "wb") as closed:
            code, _, err = bench.run(command, stdout=closed)
        assert count(bench) == before + noted, command
        assert ("it is noted, but" in err) == noted, err
        assert code == 4 if noted else code != 0, code


def nothing_new(bench):
    """Where nothing was changed nothing is called noted."""
    begun(bench)
    whole = bench.folder / "whole.jsonl"
    bench.good(f"export {whole}")
    with open("/dev/full", "wb") as full:
        code, _, err = bench.run(f"import {whole}", stdout=full)
    assert code == 4 and "it is noted" not in err, err


def cut_exports(bench):
    """An export that lacks its last rows, or half of one, is not taken for a whole one."""
    begun(bench)
    bench.good("addition add sugar PT-1 20g --on 2026-03-06")
    text = bench.good("export -")
    new = bench.folder / "new.db"
    cut = bench.folder / "cut.jsonl"
    into = ["--notebook", str(new), "import", str(cut)]
    lines = text.splitlines(keepends=True)
    parts = ["".join(lines[:n]) for n in range(1, len(lines))] + [text[:-20]]
    for part in parts:
        cut.write_text(part)
        code, out, err = bench.run(into)
        assert code in (3, 4), f"{part!r} exits {code}: {out}{err}"
        if new.exists():
            with contextlib.closing(sqlite3.connect(new)) as db:
                assert db.execute("SELECT count(*) FROM instrument").fetchone() == (0,), part
    cut.write_bytes(b"\xef\xbb\xbf" + text.encode())  # as some programs save it
    bench.good(into)


def full_disks(bench):
    """A folder of tables that could not be written to its end is not there, and no part of it."""
    begun(bench)
    bench.good(["batch", "amend", "PT-1", "--note=" + "x" * 100_000, "--reason=long"])

    def little_room():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))

    before = sorted(bench.folder.iterdir())
    process = bench.start("export --csv tables", preexec_fn=little_room, restore_signals=False,
                          stdout=subprocess.PIPE)
    out, err = process.communicate(timeout=300)
    assert process.returncode == 4, (process.returncode, out, err)
    assert sorted(bench.folder.iterdir()) == before
    bench.good("export --csv tables")
    fails(bench, "export --csv tables", "is there already")


def wide_tables(bench):
    """A table with more columns than anybody has is refused, at once."""
    begun(bench)
    rows = bench.folder / "rows.csv"
    rows.write_text(",".join(f"column {i}" for i in range(20_000)) + "\n")
    fails(bench, f"import {rows} --batch PT-1", "20000 columns")
    rows.write_text(json.dumps({f"column {i}": 1 for i in range(20_000)}) + "\n")
    fails(bench, f"import {rows} --batch PT-1", "2000 values", code=1)


def stays_old(bench):
    """An older notebook that cannot be brought up to date stays as it is, and alone."""
    begun(bench)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.execute("PRAGMA journal_mode = DELETE")
        db.execute("PRAGMA user_version = 3")  # with tables of a later one
    before = bench.notebook.read_bytes()
    for _ in range(2):
        fails(bench, "batch list", "cannot be brought up to date")
        left = [f.name for f in bench.folder.iterdir() if f.name.startswith("notebook.db")]
        assert bench.notebook.read_bytes() == before and left == ["notebook.db"], left


def no_room_for_a_copy(bench):
    """Beside one that holds the notebook, readers need a folder for a copy; without one they say so."""
    begun(bench)
    holder = subprocess.Popen([sys.executable, "-c", HOLDER, str(bench.notebook)],
                              stdout=subprocess.PIPE)
    assert holder.stdout.readline() == b"held\n"
    try:
        bench.environment["TMPDIR"] = str(bench.folder / "missing")
        fails(bench, "batch list", "TMPDIR")
    finally:
        holder.kill()
        holder.communicate()


def names_of_nothing(bench):
    """A folder, and a link that leads nowhere, are no place for a new notebook."""
    for name in ("folder/", "link.db"):
        (bench.folder / "link.db").unlink(missing_ok=True)
        (bench.folder / "link.db").symlink_to(bench.folder / "gone.db")
        fails(bench, ["--notebook", str(bench.folder) + "/" + name, "instrument", "add", "stem-1"])
        fails(bench, ["--notebook", str(bench.folder) + "/" + name, "instrument", "list"])
        assert sorted(f.name for f in bench.folder.iterdir()) == ["link.db"]


def private_files(bench):
    """What is written from a notebook that is its owner's alone is the owner's alone."""
    begun(bench)
    for mode, hidden in ((0o600, 0o077), (0o640, 0o007)):
        bench.notebook.chmod(mode)
        made = [bench.folder / name for name in ("export.jsonl", "tables", "page.html")]
        for command in ("export export.jsonl", "export --csv tables", "report PT-1 --out page.html"):
            bench.good(command)
        made += (bench.folder / "tables").iterdir()
        for file in made:
            assert not stat.S_IMODE(file.stat().st_mode) & hidden, file
        made[0].unlink()
        made[2].unlink()
        shutil.rmtree(made[1])


CHECKS = [
    second_tries, gone_readers, nothing_new, cut_exports, full_disks, wide_tables, stays_old,
    no_room_for_a_copy, names_of_nothing, private_files,
]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
