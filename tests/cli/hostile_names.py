#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Whatever a batch, a bottle, a person or a note is called: it comes back as it was typed.

  hostile_names.py --program PATH
  hostile_names.py --selftest       the checks must fail on a program that does everything wrong
"""

import contextlib
import json
import os
import re
import sqlite3
import sys

from robust import STEM, main

DASHED = [b"-starts with a dash", b"--json"]
NAMES = [
    b"\x1b]0;title\x07\x1b[2J\x7f\x01",
    "\u009b31m red \u0085".encode(),
    b"two\nlines\r\nand\ttabs",
    b"'; DROP TABLE reading; --",
    b'"double", `back` and \\slashes\\',
    b"<script>alert(1)</script>&amp;",
    b"=cmd|' /C calc'!A0",
    b"@SUM(1)",
    b"{} {0} %s %n $HOME ${HOME} *",
    "\u202epears from right to left\u202c, \ufeff zero\u200bwidth".encode(),
    "🍐 pe\u0301ar".encode(),
    b"invalid \xff\xfe\xc3 UTF-8 \xed\xa0\x80",
    b" surrounded by spaces ",
    b"100 kB " + b"x" * 100_000,
]
# Bytes that a terminal obeys: everything below a space but the end of a line, DEL, and U+0080 to
# U+009F in UTF-8.
OBEYED = re.compile(rb"[\x00-\x09\x0b-\x1f\x7f]|\xc2[\x80-\x9f]")


def output(bench, command):
    code, out, err = bench.run_bytes(command)
    assert code == 0, f"{command} exits {code}: {err}"
    found = OBEYED.search(out)
    assert not found, f"{command} prints {found[0]!r}"
    out.decode()  # it is UTF-8, whatever was put in
    return out


def objects(bench, command):
    return [json.loads(x) for x in output(bench, command).decode().splitlines()]


def raw(bench):
    """Gives bytes as arguments, and bytes back."""

    def run_bytes(command):
        process = bench.start(command, stdin=-3, stdout=-1)  # DEVNULL, PIPE
        out, err = process.communicate(timeout=300)
        return process.returncode, out, err

    bench.run_bytes = run_bytes
    return bench


def option(name, value):
    """In one word, so that a dash at the beginning means nothing."""
    return os.fsencode(f"--{name}=") + value


def round_trip(bench, name):
    """One name for everything that has one."""
    expected = name.decode(errors="replace")
    fields = [option(f, name) for f in ("vessel", "note")]
    output(bench, ["batch", "add", *fields, "--", name])
    number = objects(bench, ["reading", "add", "--temp", "20C", "--json", option("bottle", name),
                             option("by", name), option("note", name), "--", name,
                             "1.048"])[0]["readings"][0]  # fmt: skip
    output(bench, ["reading", "exclude", str(number), option("reason", name)])
    output(bench, ["reading", "include", str(number), option("reason", name)])
    output(bench, ["batch", "amend", option("drink", name), option("reason", name), "--", name])
    amended = objects(bench, ["reading", "amend", "--json", option("reason", name), "--",
                              str(number)])[0]["readings"][0]  # fmt: skip

    # As bytes in the file.
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        db.text_factory = bytes
        batch = db.execute("SELECT name, vessel, note FROM batch ORDER BY id DESC")
        assert batch.fetchone() == (name,) * 3
        reading = db.execute("SELECT bottle, person, note, reason FROM reading WHERE id = ?",
                             (amended,)).fetchone()  # fmt: skip
        assert reading == (name,) * 4, reading
        for table in ("reading_exclusion", "batch_amendment"):
            reasons = db.execute(f"SELECT reason FROM {table} ORDER BY id DESC").fetchone()
            assert reasons == (name,), table

    # For programs, but for bytes that are no UTF-8: each wrong part is one U+FFFD.
    shown = objects(bench, ["batch", "show", "--json", "--", name])
    for key in ("batch", "drink", "vessel", "note"):
        assert same(shown[0][key], expected), (key, shown[0][key][:100])
    for key in ("batch", "bottle", "person", "note"):
        assert same(shown[1][key], expected), (key, shown[1][key][:100])
    listed = objects(bench, ["reading", "list", "--json", "--", name])
    assert [x["reading"] for x in listed] == [number, amended], listed
    for key in ("bottle", "person", "note", "reason"):
        assert same(listed[1][key], expected), (key, listed[1][key][:100])

    # For people.
    for command in (["batch", "show"], ["trend", option("bottle", name)], ["reading", "list"],
                    ["reading", "list", "--full"]):  # fmt: skip
        output(bench, [*command, "--", name])


def same(shown, expected):
    # Programs differ in how many marks a wrong sequence becomes.
    return re.sub("\ufffd+", "\ufffd", shown) == re.sub("\ufffd+", "\ufffd", expected)


def every_name(bench):
    raw(bench).good(STEM)
    for name in NAMES:
        try:
            round_trip(bench, name)
        except (AssertionError, UnicodeDecodeError, LookupError) as e:
            raise AssertionError(f"{name[:40]!r}: {e}") from e
    for command in (["batch", "list"], ["batch", "list", "--json"]):
        output(bench, command)
    assert len(objects(bench, ["batch", "list", "--json"])) == len(NAMES)
    # Plain text, however dangerous elsewhere, is shown to people as it is.
    shown = output(bench, ["batch", "list"])
    for name in NAMES[3:9] + NAMES[10:11]:
        assert name in shown, name


def refused_names(bench):
    """A name that does not exist is told without obeying it; one like an option is not given."""
    raw(bench).good("batch add PT-1")
    for name in DASHED:
        for kind in ("batch", "instrument"):
            code, _, err = bench.run_bytes([kind, "add", "--", name])
            assert code == 3 and b"taken for an option" in err, (kind, name, code, err)
        field = [option(f, name) for f in ("drink", "vessel", "note")]
        output(bench, ["batch", "add", *field, b"x" + name])
    for name in NAMES:
        for extra in ([], ["--json"]):
            code, out, err = bench.run_bytes(["batch", "show", *extra, "--", name])
            assert code == 4 and not out, (name[:40], code)
            assert not OBEYED.search(err), err[:200]
            err.decode()


CHECKS = [every_name, refused_names]

if __name__ == "__main__":
    sys.exit(main(CHECKS))
