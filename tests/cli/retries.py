#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
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

from misread import READING, begin, begun, count, fails, held
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


def cut_folders(bench):
    """The same of a folder of tables: a row, the end of one, or a whole table is gone."""
    begun(bench)
    bench.good("reading exclude 1 --reason bubbles")
    bench.good("export --csv whole")
    whole, cut = bench.folder / "whole", bench.folder / "cut"
    file = (whole / "reading_exclusion.csv").read_text()
    head = file.splitlines(keepends=True)[0]
    into = ["--notebook", str(bench.folder / "new.db"), "import", str(cut)]
    for text in (head, head[:10], file[:-4], file[:-1], ""):
        shutil.copytree(whole, cut, dirs_exist_ok=True)
        (cut / "reading_exclusion.csv").write_text(text)
        fails(bench, into)
    shutil.copy(whole / "reading_exclusion.csv", cut)
    bench.good(into)


def doubled_names(bench):
    """Of two values under one name none is dropped without a word."""
    begun(bench)
    twice = bench.folder / "twice.jsonl"
    twice.write_text('{"date":"2026-03-07","reading":"1.010","reading":"1.009"}\n')
    fails(bench, f"import {twice} --batch PT-1", "twice", code=1)
    lines = bench.good("export -").splitlines()
    twice.write_text("\n".join([lines[0].replace('"rows"', '"rows":1,"rows"'), *lines[1:]]) + "\n")
    fails(bench, ["--notebook", str(bench.folder / "new.db"), "import", str(twice)], "twice",
          code=3)


EXTREMES = [
    "instrument add x1 --meniscus 5",
    "instrument add x2 --glass 1001",
    "instrument add x3 --tolerance 99999999999",
    "instrument add x4 --stem 99999999999mm",
    "instrument add x5 --made-for 99999999999mN/m",
    "instrument add x6 --kind refractometer --to 9999999999",
    "instrument add x7 --kind thermometer --to 9999999999C",
    "calibrate certificate stem-1 1.050 --correction 0.0004 --expanded 0.003 --factor 10.1",
    "reading add PT-1 1.015 --temp 20C --temp-accuracy 101C --yes",
    "addition add sugar PT-1 2000000kg --yes",
    "addition add water PT-1 2000000000L --yes",
    "batch amend PT-1 --volume 2000000000L --reason x --yes",
    "batch add PT-9 --volume 2000000000L",
    "calibrate sugar stem-1 1.04 20C --solute 2000000kg --water 20000000kg --yes",
]


def noted_and_back(bench):
    """What the program notes, an import takes: whatever was typed, the export goes back."""
    begun(bench)
    for command in EXTREMES:
        code, _, err = bench.run(command)
        assert code in (0, 2, 3), f"`{command}` exits {code}: {err}"
        bench.good("export back.jsonl")
        for path in ("new.db", "notebook.db"):
            code, out, err = bench.run(["--notebook", str(bench.folder / path), "import",
                                        "back.jsonl"])  # fmt: skip
            assert code == 0, f"after `{command}` an export does not go back: {err}"
        for file in ("back.jsonl", "new.db"):
            (bench.folder / file).unlink()


def clock_ahead(bench):
    """What was noted by a clock that ran ahead goes back, too."""
    begun(bench)
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        columns = [c[1] for c in db.execute("PRAGMA table_info(reading)")]
        row = dict(zip(columns, db.execute("SELECT * FROM reading").fetchone()))
        row |= {"id": 2, "sample": 2, "made_at": "2999-01-01T00:00:00+00:00",
                "noted_at": "2999-01-01T00:00:00+00:00", "made_at_s": 32472144000,
                "noted_at_s": 32472144000}  # fmt: skip
        db.execute(f"INSERT INTO reading ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})",
                   list(row.values()))  # fmt: skip
        db.commit()
    bench.good("export ahead.jsonl")
    bench.good("import ahead.jsonl")
    bench.good(["--notebook", str(bench.folder / "new.db"), "import", "ahead.jsonl"])


def left_out(bench):
    """A liquid all of whose pairs are left out hides no other."""
    begun(bench)
    bench.good("instrument add prism-1 --kind refractometer")
    pair = "12.6Bx 1.050 --temp 20C --instrument prism-1 --hydrometer stem-1"
    bench.good(f"liquid pair one {pair}")
    bench.good(f"liquid pair other {pair}")
    bench.good("liquid leave-out one 1 --reason cloudy")
    assert "other" in bench.good("liquid list") and "left out" in bench.good("liquid list")
    assert "cloudy" in bench.good("liquid show one")
    assert len(bench.good("liquid list --json").splitlines()) == 2


def small_files(bench):
    """A limit on the size of files is told like a full disk."""
    begun(bench)
    for command in ("batch list", READING.replace("10:00", "12:00")):
        process = bench.start(command, stdout=subprocess.PIPE, preexec_fn=lambda:
                              resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096)))  # fmt: skip
        out, err = process.communicate(timeout=300)
        assert process.returncode in (0, 4), (command, process.returncode, out, err)
        assert process.returncode == 0 or err, command
    assert "1.020" in bench.good("batch show PT-1")


def one_moment(bench):
    """Sugar that was added on the day of the original went into what had been read."""
    begin(bench)
    bench.good("reading add PT-1 1.048 --temp 20C --original --on 2026-03-02")
    bench.good("addition add sugar PT-1 100g --on 2026-03-02")
    assert "% vol" in bench.good(READING + " --yes")


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
    with held(bench):
        bench.environment["TMPDIR"] = str(bench.folder / "missing")
        fails(bench, "batch list", "TMPDIR")


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
    second_tries, gone_readers, nothing_new, cut_exports, cut_folders, doubled_names,
    noted_and_back, clock_ahead, left_out, small_files, one_moment, full_disks, wide_tables, stays_old,
    no_room_for_a_copy, names_of_nothing, private_files,
]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
