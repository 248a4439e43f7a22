#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""One value of an export is changed, every column of every table in turn: either the import is
refused and nothing came of it, or everything that shows a notebook still works. One in so many of
the changes is tried, the same each time; AREO_EVERY_EDIT=1 tries all of them, in minutes.

  edited_exports.py --program PATH
  edited_exports.py --selftest       the checks must fail on a program that does everything wrong
"""

import contextlib
import json
import os
import re
import sqlite3
import sys

from robust import main

FILL = [
    "instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28",
    "instrument add stem-2 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28",
    "instrument add prism-1 --kind refractometer --on 2026-02-28",
    "instrument add probe-1 --kind thermometer --division 0.1C --on 2026-02-28",
    "calibrate water stem-1 1.001 21C --tap --on 2026-03-01T10:00Z",
    "calibrate sugar stem-1 1.041 21C --solute 52g --water 450g --tap --on 2026-03-01T11:00Z",
    "calibrate fit stem-1",
    "calibrate ice probe-1 0.2C --on 2026-03-01T10:00Z",
    "calibrate boiling probe-1 99.8C --altitude 100m --on 2026-03-01T10:30Z",
    "calibrate certificate stem-2 1.050 --correction 0.0004 --expanded 0.0003 --on 2026-03-01",
    "liquid pair juice 12.6Bx 1.050 --temp 20C --instrument prism-1 --hydrometer stem-1 "
    "--on 2026-03-01",
    "liquid pair juice 12.7Bx 1.051 --temp 20C --instrument prism-1 --hydrometer stem-1 "
    "--on 2026-03-02",
    "liquid leave-out juice 2 --reason cloudy",
    "batch add PT-1 --volume 5L --on 2026-03-02",
    "batch add PT-2 --volume 4L --liquid juice --on 2026-03-02",
    "reading add PT-1 1.048 1.047 --temp 21C --original --instrument stem-1 --on 2026-03-02T10:00Z",
    "reading add PT-2 1.050 --temp 21C --original --instrument stem-1 --on 2026-03-02T10:00Z",
    "reading add PT-1 1.026 --temp 21C --instrument stem-1 --thermometer probe-1 "
    "--on 2026-03-05T18:00Z",
    "reading add PT-1 7.8 --temp 21C --instrument prism-1 --degassed yes --on 2026-03-06T18:00Z",
    "reading amend 4 1.027 --reason slip",
    "addition add sugar PT-1 20g --on 2026-03-06T18:30Z",
    "addition add juice PT-1 0.5L 12.5Bx --on 2026-03-06T18:40Z",
    "addition exclude 2 --reason none",
    "reading add PT-1 1.016 --temp 20C --instrument stem-1 --on 2026-03-14T18:00Z",
    "reading exclude 7 --reason bubbles",
    "batch amend PT-1 --vessel jar --reason moved",
    "batch amend PT-1 --volume 4.9L --reason measured",
    "batch close PT-2 --on 2026-03-10",
    "instrument retire stem-2 --reason broke",
]
SHOW = ["batch list", "batch show PT-1", "batch show PT-2", "reading list PT-1", "trend PT-1",
        "instrument list", "calibrate show stem-1", "liquid show juice", "export -"]  # fmt: skip
NUMBERS = [None, "x", -1, 0, -0.5, 1e308, 1e-300, 7, 2**53]
TEXTS = [None, "", "x", 5, "2030-01-01T00:00:00+00:00", "2026-03-01 10:00", "1.9", "9999L"]
ONE_IN = 1 if "AREO_EVERY_EDIT" in os.environ else 12
NOT_A_NUMBER = re.compile(r"\b(inf|nan)\b", re.IGNORECASE)


def values_for(value):
    return [v for v in (TEXTS if isinstance(value, str) else NUMBERS) if v != value]


def exported(bench):
    for command in FILL:
        bench.good(command + (" --yes" if "reading" in command and "add" in command else ""))
    bench.good("report PT-1 --out page.html")
    return [json.loads(x) for x in bench.good("export -").splitlines()]


def imported(bench, rows):
    """(exit status, what was said), into a notebook that was not there."""
    with contextlib.suppress(FileNotFoundError):
        bench.notebook.unlink()
    text = "\n".join(json.dumps(r) for r in rows) + "\n"
    code, _, err = bench.run("import -", text.encode())
    return code, err


def rows_there(bench):
    if not bench.notebook.exists():
        return 0
    with contextlib.closing(sqlite3.connect(bench.notebook)) as db:
        return sum(db.execute(f"SELECT count(*) FROM {t}").fetchone()[0]
                   for t in ("instrument", "batch", "reading"))  # fmt: skip


def require_shown(bench, what):
    for command in SHOW:
        code, out, err = bench.run(command)
        assert code in (0, 1), f"{what} was accepted; `{command}` exits {code}: {err}"
        found = NOT_A_NUMBER.search(out)
        assert not found, f"{what} was accepted; `{command}` prints {found[0]}"


def each_value(bench):
    """Refused without a trace, or harmless."""
    rows = exported(bench)
    code, err = imported(bench, rows)
    assert code == 0, err
    require_shown(bench, "nothing")
    refused = accepted = 0
    count = 0
    for i, row in enumerate(rows[1:], 1):
        for column, value in row["row"].items():
            if column in ("name", "liquid"):
                continue  # another name is found under that
            for other in values_for(value):
                count += 1
                if count % ONE_IN:
                    continue
                edited = json.loads(json.dumps(rows))
                edited[i]["row"][column] = other
                what = f"{row['table']} {row['row'].get('id', '')} {column} = {other!r}"
                code, err = imported(bench, edited)
                if code == 0:
                    accepted += 1
                    require_shown(bench, what)
                else:
                    refused += 1
                    assert code in (3, 4), f"{what} exits {code}: {err}"
                    assert rows_there(bench) == 0, f"{what} is refused, and left rows"
    print(f"{refused} refused, {accepted} accepted and harmless")
    assert refused > accepted


def edited(rows, table, number, **values):
    out = json.loads(json.dumps(rows))
    hits = [r["row"] for r in out[1:] if r["table"] == table and r["row"].get("id") == number]
    assert len(hits) == 1, (table, number)
    hits[0].update(values)
    return out


def contradictions(bench):
    """Rows that are each well-formed, and together could not have been noted."""
    rows = exported(bench)
    for case in [
        edited(rows, "reading", 4, amends=6, reason="circle"),
        edited(rows, "reading", 6, amends=6),
        edited(rows, "reading", 5, amends=3, reason="of another batch"),
        edited(rows, "reading", 2, sample=3),
        edited(rows, "check_reading", 2, instrument=2),
        edited(rows, "addition", 1, mass_g=2000.0),
        edited(rows, "addition", 1, amount_typed="2000g"),
        edited(rows, "batch_amendment", 2, volume_l=49.0),
        edited(rows, "batch_amendment", 1, field="extract", value="zzz"),
        edited(rows, "batch_amendment", 1, field="liquid", value="zzz"),
        edited(rows, "batch", 1, liquid="zzz"),
        edited(rows, "liquid_pair", 1, temperature_half_width_c=-0.5),
        edited(rows, "batch_event", 1, what="reopened"),
        edited(rows, "reading", 5, made_at="2026-03-06T18:00:00"),
        rows[:-2],
        # Behind an amendment; a batch showed it as of a day before.
        edited(edited(rows, "batch", 1, extract="zzz"), "batch_amendment", 1, field="extract",
               value="malt"),
        # What a hydrometer's scale is, left out; what a thermometer has not, put in.
        *(edited(rows, "instrument", 1, **{part: None})
          for part in ("scale_sample_c", "scale_water_c", "scale_modulus", "glass_expansion_per_c")),
        edited(rows, "instrument", 4, scale_kind="zz"),
        edited(rows, "instrument", 4, glass_expansion_per_c=0.00001),
        edited(rows, "instrument", 3, scale_sample_c=20.0),
        # A number as a text, which the file would turn into one.
        edited(rows, "addition", 1, amount_typed="zz", mass_g="9e999"),
        edited(rows, "instrument", 1, hi="1e300"),
        edited(rows, "batch", 2, volume_typed=4),
        # What was typed is no number of this kind, and its digits are others.
        edited(rows, "reading", 7, typed="4.0P", indication=1.061),
        edited(rows, "reading", 7, typed="banana", indication=1.061),
        edited(rows, "addition", 1, amount_typed="0.5L", mass_g=900.0),
        # A repeat of another moment; one that is excluded and counts by turns; noted before it was
        # made; in force from a day to come.
        edited(rows, "reading", 7, sample=1),
        edited(rows, "reading_exclusion", 1, excluded=0),
        edited(rows, "reading", 7, noted_at="1990-01-01T00:00:00+00:00", noted_at_s=631152000),
        edited(rows, "calibration", 1, in_force_from="2999-01-01T00:00:00+00:00",
               in_force_from_s=32472144000, due=None, due_s=None),
        edited(rows, "check_reading", 5, expanded=1e-300),
        edited(rows, "addition", 2, what="sugar"),
        edited(rows, "reading", 7, id=2**53 - 1, sample=2**53 - 1),
        rows + rows[-1:],
        rows[:-2] + rows[-1:] * 2,
        rows[1:],
        [{k: v for k, v in rows[0].items() if k != "rows"}] + rows[1:],
    ]:
        code, err = imported(bench, case)
        differs = [(a, b) for a, b in zip(rows, case) if a != b]
        assert code in (3, 4), f"{differs} exits {code}: {err}"
        assert rows_there(bench) == 0, differs


def another_hand(bench):
    """Spaces, ends of lines and a number that an editor or a program set in another way."""
    rows = exported(bench)
    lines = [json.dumps(r) for r in rows]
    first = dict(rows[0], version=float(rows[0]["version"]))
    spaced = json.dumps(first).replace('{"areo":', '{ "areo" :')
    for text in ("\r\n".join(lines) + "\r\n\r\n", "\n".join([spaced, *lines[1:]]) + "\n \n"):
        with contextlib.suppress(FileNotFoundError):
            bench.notebook.unlink()
        code, out, err = bench.run("import -", text.encode())
        assert code == 0 and f"{len(rows) - 1} rows brought back" in out, err
        require_shown(bench, "an export in another hand")


CHECKS = [each_value, contradictions, another_hand]

if __name__ == "__main__":
    sys.exit(main(CHECKS))
