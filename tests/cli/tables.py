#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Printed tables: their cells against published ones, their shape, their formats, their memory.

  tables.py --program PATH
  tables.py --selftest       the checks must fail on a program that does everything wrong

Published rows are those of tables/*.csv; each difference that is allowed stands with its reason.
"""

import csv
import os
import re
import subprocess
import sys
import tempfile
from html.parser import HTMLParser
from pathlib import Path

from robust import main

ROOT = Path(__file__).resolve().parent.parent.parent
TABLES = ROOT / "tables"
OWN = TABLES / "areo"
# Of 0.120 in gravity, and the rows that they make.
STEPS = [("0.000012", 10_000), ("0.00000024", 500_000)]
# Every table as it comes, and how a step of half the size is asked for.
EVERY = {
    "conversion": "--step 0.001",
    "conversion --from 0P --to 30P --step 0.5": "--step 0.25",
    "temperature": "--step 0.5C",
    "temperature --alcohol 5": "--step 0.5C",
    "temperature --readings 0Bx,10Bx,20Bx,30Bx": "--step 0.5C",
    "alcohol": "--step 0.001",
    "refractometer --from 4 --to 16 --originals 16": "--step 0.5",
    "strength": "--step 0.25",
    "dilution --from 1.060 --wanted 1.030,1.040,1.050": "--step 0.0025",
    "dilution --add sugar --from 1.000 --to 1.030 --wanted 1.040,1.060": "--step 0.0025",
}  # fmt: skip


# Tables from narrow to wide, and the words in a full row.
EVERY_WIDTH = [
    (f"alcohol --from 1.000 --to 1.010 --originals {','.join(f'1.{i:03}' for i in range(40, 40 + 3 * n, 3))}",
     n + 1) for n in (9, 13, 14, 17)
] + [
    (f"refractometer --from 7 --to 8 --originals {','.join(str(i) for i in range(8, 8 + n))}",
     2 * n + 1) for n in (7, 8, 11)
] + [
    (f"temperature --coldest 10C --warmest 12C --readings {','.join(f'1.{i:03}' for i in range(0, 160, 10))}",
     17)
]  # fmt: skip


def rows(text):
    """The rows of a CSV, `#` lines left out, as dictionaries."""
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    found = list(csv.DictReader(lines))
    assert found, f"no rows in {text[:200]!r}"
    return found


def table(bench, command):
    return rows(bench.good(f"table {command} --csv"))


def published(name):
    return rows((TABLES / f"{name}.csv").read_text(encoding="utf-8"))


def half_digit(cell):
    return 0.5 * 10.0 ** -len(cell.partition(".")[2])


def near(cell, wanted, stated, where):
    """A printed cell against a number, within a stated difference and half of its own last digit."""
    got = float(cell)
    assert abs(got - wanted) <= stated + half_digit(cell) + 1e-12, f"{where}: {got}, not {wanted}"


# --- against published tables --------------------------------------------------------------------


def bound(name, line):
    """What no row may be off by: the last cell of a line of docs/explanation/agreement/NAME.md."""
    for text in (ROOT / f"docs/explanation/agreement/{name}.md").read_text().splitlines():
        cells = [cell.strip() for cell in text.strip("|").split("|")]
        if cells[0] == line:
            return float(cells[-1].split()[0])
    raise KeyError(f"{name}: no line '{line}'")


def sugar_table_of_1900(bench):
    """[nbsc440] table 114 holds Plato's data of 1900, the formula newer ones: bounds by decade as in
    docs/explanation/models.md."""
    decades = [f"{tens} to {tens + 10}" for tens in range(0, 60, 10)]
    bounds = [bound("sucrose", decade) for decade in decades]
    computed = {
        float(r["entry_brix"]): r
        for r in table(bench, "conversion --from 0Bx --to 60Bx --step 1 --columns kg/m3,SG,SGair")
    }
    compared = 0
    for p in published("sucrose-density-20c"):
        brix = float(p["brix"])
        if brix > 60:
            continue
        stated = bounds[min(int(brix // 10), 5)]
        c = computed[brix]
        near(c["density_at_20_c_kg_m3"], float(p["rho_true_kg_m3"]), stated, f"{brix} Brix")
        near(c["sg_20_20"], float(p["sg_true_20_20"]), stated / 998, f"{brix} Brix")
        near(c["sg_in_air_20_20"], float(p["sg_apparent_20_20"]), stated / 998, f"{brix} Brix")
        compared += 1
    assert compared > 30, compared


def alcoholometric_table(bench):
    """USP 29, volumes and weights in air at 60 °F: bounds as in docs/explanation/models.md."""
    by_mass = bound("ethanol", "[usp29], % by mass from % by volume")
    in_air = bound("ethanol", "[usp29], gravity in air")
    computed = {
        float(r["alcohol_percent_vol"]): r
        for r in table(bench, "strength --from 0 --to 100 --step 1 --reference 60F")
    }
    compared = 0
    for p in published("ethanol-alcoholometric-usp"):
        if p["entry"] != "vol":
            continue
        c = computed[float(p["volume_percent"])]
        near(c["alcohol_percent_mass"], float(p["mass_percent"]), by_mass, p["volume_percent"])
        near(c["sg_in_air"], float(p["sg15"]), in_air, p["volume_percent"])
        compared += 1
    assert compared > 20, compared


def must_table(bench):
    """OIV Table II. The index is that of the same scale: within a unit of its last digit, by which
    the table itself differs from its source in two rows. Its sugar is counted as 16.83 g/L for
    1 % vol, Balling's balance makes 3.5 % to 5.2 % more (include/areo/measurement/convert.hpp)."""
    computed = {
        float(r["entry_brix"]): r
        for r in table(bench, "conversion --from 10.0Bx --to 30.0Bx --step 0.5 --columns nD")
    }
    for p in published("must-oiv-table2"):
        near(computed[float(p["sucrose_percent"])]["refractive_index_20"], float(p["n20d"]), 1e-5,
             p["sucrose_percent"])  # fmt: skip
    potential = [
        (float(r["entry_sugar_g_l"]), float(r["potential_alcohol_percent_vol"]))
        for r in table(bench, "conversion --from 82.2g/L --to 308.9g/L --step 0.1 --columns potential --full")
    ]  # fmt: skip
    by_sugar = {round(sugar, 1): strength for sugar, strength in potential}
    for p in published("must-oiv-table2"):
        ratio = by_sugar[float(p["sugar_g_l"])] / (float(p["sugar_g_l"]) / 16.83)
        assert 1.035 <= ratio <= 1.052, f"{p['sugar_g_l']} g/L: {ratio}"


def hydrometer_temperatures(bench):
    """[nbsc440], corrections of Brix hydrometers, from memory: bounds by temperature as in
    docs/explanation/models.md."""
    mild = bound("hydrometer", "10 °C to 30 °C")
    marks = (0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70)
    computed = {
        (float(r["temperature_c"]), float(r["reading_brix"])): r["correction"]
        for r in table(bench, "temperature --coldest 0.0C --warmest 40.0C --step 0.5C --readings "
                       + ",".join(f"{m}Bx" for m in marks))
    }  # fmt: skip
    compared = 0
    for p in published("brix-hydrometer-temperature-correction"):
        t = float(p["t_c"])
        if t > 40:
            continue
        stated = mild if 10 <= t <= 30 else bound("hydrometer", f"{t:.0f} °C")
        for mark in marks:
            cell = computed[t, mark]
            if cell:  # denser than the formula goes: no liquid
                near(cell, float(p[f"c{mark}"]), stated, f"{mark} Brix at {t} °C")
                compared += 1
    assert compared > 200, compared


def water_at_each_temperature(bench):
    """In water an SG 20/20 instrument shows rho(t) (1 + 25e-6 (t - 20)) / rho(20), by the published
    densities of tables/water-density.csv: added up, that reading and its correction are 1."""
    water = {p["t_c"]: float(p["rho_tanaka2001_kg_m3"]) for p in published("water-density")
             if p["rho_tanaka2001_kg_m3"]}  # fmt: skip
    assert len(water) > 10
    at_20 = 998.2067  # [tanaka2001], as it states itself
    for t in [t for t in water if 2 <= float(t) <= 38]:
        shown = f"{water[t] / at_20 * (1 + 25e-6 * (float(t) - 20)):.6f}"
        first = table(bench, f"temperature --coldest {t}C --warmest {float(t) + 1}C --readings {shown} --full")[0]  # fmt: skip
        # The density is printed to 5e-5 kg/m³, the reading to half of 1e-6.
        assert abs(float(shown) + float(first["correction"]) - 1) < 1e-7 + 5e-7, (t, shown, first)


# --- shape ---------------------------------------------------------------------------------------


def series(bench, command, full=" --full"):
    """For each quantity and column of a table: its values down the side, where there are any."""
    found = {}
    for r in table(bench, command + full):
        keys = list(r)
        crossed = len(keys) > 2 and not keys[1].endswith("_U") and keys[2] + "_U" == keys[3]
        first = 2 if crossed and keys[1] + "_U" not in keys else 1
        for key in keys[first::2]:
            if r[key]:
                found.setdefault((key, r[keys[1]] if first == 2 else ""), []).append(
                    (float(r[keys[0]]), float(r[key]), r[key]))  # fmt: skip
    assert found, command
    return found


def monotone(bench):
    """Every column goes one way, printed or not: up or down, never back."""
    for command in EVERY:
        for key, values in series(bench, command).items():
            steps = [b[1] - a[1] for a, b in zip(values, values[1:])]
            assert all(s > 0 for s in steps) or all(s < 0 for s in steps), f"{command}: {key}"
        for key, values in series(bench, command, "").items():
            steps = [b[1] - a[1] for a, b in zip(values, values[1:])]
            assert all(s >= 0 for s in steps) or all(s <= 0 for s in steps), f"{command}: {key}"


def interpolation(bench):
    """Half way between two rows a straight line is off by less than half of the last digit; where it
    is not, as with a step that is too large, the table says so."""
    for command, finer in EVERY.items():
        printed = series(bench, command, "")
        between = series(bench, f"{re.sub(' --step [0-9.]+', '', command)} {finer}")
        for key, values in between.items():
            limit = half_digit(printed[key][0][2])
            known = {round(x, 6): v for x, v, _ in values}
            entries = sorted(known)
            for a, m, b in zip(entries, entries[1:], entries[2:]):
                off = abs(known[m] - (known[a] + known[b]) / 2)
                assert off < limit, f"{command}: {key} at {m} is off by {off}"
        assert "straight line" not in bench.good(f"table {command}"), command
    for command in ("strength --step 5", "temperature --step 10C --readings 1.050",
                    "conversion --step 0.040"):  # fmt: skip
        assert "between two rows a straight line is off by up to" in bench.good(f"table {command}")


def digits(bench):
    """No cell has more decimals than its uncertainty supports: the second digit of U."""
    for command in EVERY:
        for r in table(bench, command):
            for key, cell in r.items():
                if not key.endswith("_U") and r.get(key + "_U"):
                    # The largest U of the column decides; this one may be smaller by a lot, but
                    # never so large that its second digit lies left of the last one printed.
                    u = float(r[key + "_U"])
                    assert u < 100 * 2 * half_digit(cell), f"{command}: {key} {cell} ± {u}"


# --- formats -------------------------------------------------------------------------------------


class Cells(HTMLParser):
    def __init__(self, html):
        super().__init__()
        self.rows, self.heads, self.open = [], [], False
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        if tag == "tr":
            self.rows.append([])
        if tag == "th":
            self.heads.append("")
        self.open = tag
        if tag == "td":
            self.rows[-1].append("")

    def handle_data(self, data):
        if self.open == "td" and self.rows and self.rows[-1]:
            self.rows[-1][-1] += data
        if self.open == "th":
            self.heads[-1] += data

    def handle_endtag(self, tag):
        if tag in ("td", "th", "tr", "table"):
            self.open = ""


def markdown_rows(text):
    cells = [[c.strip().replace("\\", "") for c in re.split(r"(?<!\\)\|", line)[1:-1]]
             for line in text.splitlines() if line.startswith("|")]  # fmt: skip
    return cells[2:]


def formats_agree(bench):
    """Text, Markdown, HTML and CSV have the same numbers; title, units and sources are in each."""
    for command in ("conversion --from 1.000 --to 1.100 --step 0.005", "strength",
                    "temperature", "solution sugar"):  # fmt: skip
        csv_rows = table(bench, command)
        files = {}
        for ending in ("txt", "md", "html", "csv"):
            bench.good(f"table {command} --out t.{ending}")
            files[ending] = (bench.folder / f"t.{ending}").read_text(encoding="utf-8")
        assert rows(files["csv"]) == csv_rows
        title = re.search(r"# title: (.*)", files["csv"])[1]
        for ending, text in files.items():
            for word in (title, "computed by areo", "°C", "[tanaka2001]"):
                assert word in text.replace("\\", ""), f"{command}: {word} is not in {ending}"
        html = [r for r in Cells(files["html"]).rows if r]
        assert html == markdown_rows(files["md"]), command
        numbers = [line.split() for line in files["txt"].splitlines() if re.match(r" *[-0-9.]+  ", line)]
        assert numbers == [r for r in html if r[0] != "±"], command
        wide = [r for r in html if r[0] != "±"]
        if command == "temperature":
            long = [[r["temperature_c"], r["correction"]] for r in csv_rows]
            flat = [[r[0], cell.lstrip("+")] for r in wide for cell in r[1:]]
            assert long == flat
        else:
            assert [[v for k, v in r.items() if not k.endswith("_U")] for r in csv_rows] == wide
        units = re.search(r"# units: (.*)", files["csv"])[1]
        for key in csv_rows[0]:
            assert key.endswith("_U") or f"{key} = " in units, f"{command}: no unit of {key}"


def refusals(bench):
    bench.good("instrument add stem-1")
    for command, words in [
        ("table conversion --out t.xyz", "does not say what it is to be"),
        ("table conversion --out t", "does not say what it is to be"),
        ("table conversion --format pdf", "a PDF goes into a file"),
        ("table conversion --paper Letter", "--paper is about sheets"),
        ("table conversion --format csv --out notebook.db", "is the notebook"),
        ("table conversion --csv --format html", "--csv"),
        ("table conversion --step 0.00001 --out t.pdf", "too many for paper"),
        ("table temperature --out t.pdf --readings " + ",".join(f"1.{i:03}" for i in range(25)),
         "columns are too many for paper"),
        ("table conversion --out no/such/folder/t.csv", "cannot be written"),
        ("table temperature --coldest 50F --warmest 30C", "not in one unit"),
        ("table temperature --coldest 10C --warmest 90C", "from 0C to 85C"),
        ("table temperature --alcohol 5P", "not a unit of a strength"),
        ("table solution sugar --from 1.0001", "less than one division"),
        ("table strength --to 101", "100 % vol"),
        ("table dilution --wanted 10P", "on one scale"),
        ("table dilution --wanted 0.990", "no cell of this table exists"),
        ("table temperature --alcohol 60", "no cell of this table exists"),
        ("table temperature --alcohol -5", "not below zero"),
        ("table conversion --columns foo", "nD, potential"),
        ("table log --rows 0", "1 to 1000 rows"),
        ("table alcohol --originals 10P", "on one scale"),
    ]:
        code, _, err = bench.run(command)
        assert code in (2, 3, 4), f"`{command}` exits {code}"
        assert words in err and "hint: " in err, f"`{command}`: {code} {err}"
    assert not list(bench.folder.glob("t*")), "a refused table leaves a file"


def on_paper(bench):
    """As PDF: as many sheets as it needs, the columns on each, fonts in it, text to search."""
    for paper, size in (("A4", "595.28 x 841.89"), ("Letter", "612 x 792")):
        bench.good(f"table conversion --out t.pdf --paper {paper}")
        file = bench.folder / "t.pdf"
        info = tool("pdfinfo", file)
        sheets = int(re.search(r"Pages: +(\d+)", info)[1])
        width, height = (float(x) for x in re.search(r"Page size: +([\d.]+) x ([\d.]+)", info).groups())
        assert abs(width - float(size.split()[0])) < 0.1 and abs(height - float(size.split()[2])) < 0.1
        assert sheets == 2, info
        fonts = tool("pdffonts", file).splitlines()[2:]
        assert fonts and all(re.search(r" yes yes yes ", f) for f in fonts), fonts
        found = []
        for sheet in range(1, sheets + 1):
            text = tool("pdftotext", "-layout", "-f", str(sheet), "-l", str(sheet), file, "-")
            for word in ("Plato", "kg/m³", "Oechsle", f"sheet {sheet} of {sheets}",
                         "What SG 20/20 °C means on other scales"):  # fmt: skip
                assert word in text, f"{word} is not on sheet {sheet}"
            found += [line.split() for line in text.splitlines() if re.match(r" *1\.\d{3}  ", line)]
        wide = [[v for k, v in r.items() if not k.endswith("_U")] for r in table(bench, "conversion")]
        assert found == wide
        # Nothing stands beyond the margin, 15 mm, however many columns there are.
        for command, columns in EVERY_WIDTH:
            bench.good(f"table {command} --out w.pdf --paper {paper}")
            boxes = tool("pdftotext", "-bbox", bench.folder / "w.pdf", "-")
            page = float(re.search(r'<page width="([\d.]+)"', boxes)[1])
            right = max(float(x) for x in re.findall(r'xMax="([\d.]+)"', boxes))
            assert right <= page - 15 / 25.4 * 72 + 0.5, f"{command}: {right} of {page}"
            text = tool("pdftotext", "-layout", bench.folder / "w.pdf", "-")
            rows_read = [len(line.split()) for line in text.splitlines()
                         if re.match(r" *[\d.]+ +[-+<0-9]", line)]  # fmt: skip
            assert max(rows_read) == columns, f"{command}: {max(rows_read)} of {columns} columns"
        tool("pdftoppm", "-r", "40", "-gray", "-f", "1", "-l", "1", file, str(bench.folder / "p"))
        picture = next(bench.folder.glob("p*.pgm")).read_bytes()
        ink = sum(1 for byte in picture[20:] if byte < 160) / len(picture)
        assert 0.01 < ink < 0.4, f"{ink:.1%} of the first sheet is dark"


def without_weasyprint(bench):
    bench.environment["PATH"] = "/nowhere"
    code, _, err = bench.run("table strength --out t.pdf")
    assert code == 4 and "weasyprint is not installed" in err and "Debian: weasyprint" in err, err
    assert not (bench.folder / "t.pdf").exists()
    bench.good("table strength --out t.html")


def tool(*command):
    done = subprocess.run([str(c) for c in command], capture_output=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    return done.stdout


# --- size, and areo's own tables -----------------------------------------------------------------


def a_million_cells(bench):
    """Fifty times the rows in the same memory, in every format that is written as it is computed."""
    for form in ("text", "csv", "markdown", "html"):
        peaks = []  # KiB, of two columns
        for step, count in STEPS:
            process = bench.start(
                "table conversion --from 1.000 --to 1.120 --columns P,kg/m3"
                f" --step {step} --format {form}",
                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE)  # fmt: skip
            lines = sum(1 for _ in process.stdout)
            err = process.stderr.read().decode()
            process.stdout.close()
            process.stderr.close()
            _, status, usage = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            assert process.returncode == 0, err
            assert lines > count, f"{form}: {lines} lines for {count} rows"
            peaks.append(usage.ru_maxrss)
        assert peaks[1] < peaks[0] + 2048, f"{form}: {peaks[0]} KiB grow to {peaks[1]} KiB"


def own_tables(bench):
    """What areo publishes itself is what areo computes, to the byte."""
    with tempfile.TemporaryDirectory() as fresh:
        subprocess.run(["sh", OWN / "generate.sh", bench.program, fresh], check=True,
                       env=bench.environment)  # fmt: skip
        made = {f.name: f.read_bytes() for f in Path(fresh).iterdir()}
    kept = {f.name: f.read_bytes() for f in OWN.glob("*.csv")}
    assert len(kept) >= 12, sorted(kept)
    assert made.keys() == kept.keys(), made.keys() ^ kept.keys()
    for name in kept:
        assert made[name] == kept[name], f"{name} differs: sh tables/areo/generate.sh PROGRAM"
        text = kept[name].decode()
        for key in ("title", "source", "units", "verified: computed"):
            assert f"# {key}" in text, f"{name} has no {key}"


CHECKS = [
    sugar_table_of_1900, alcoholometric_table, must_table, hydrometer_temperatures,
    water_at_each_temperature, monotone, interpolation, digits, formats_agree, refusals, on_paper,
    without_weasyprint, a_million_cells, own_tables,
]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
