#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Pages that areo writes, as pages.py judges them.

  areo_pages.py --program PATH [--screenshots DIR] [CASE...]      default: all cases
  areo_pages.py --selftest       must refuse programs that write no page, or a bad one
"""

import argparse
import os
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

import pages
from webdriver import Browser, skip_without_browser

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
from hostile_names import NAMES, option  # noqa: E402

TIMEOUT_S = 120
PAGE = "page.html"
SHEETS = {"week": 3}  # at the most, by case

# --- the cases ------------------------------------------------------------------------------------
# What fills the notebook, one command a line; then the commands that each write PAGE.
INSTRUMENTS = """
instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-01
calibrate fit stem-1
"""
JAR = INSTRUMENTS + """
batch add PT-1 --drink 'pear and thyme' --vessel jar --volume 5L --on 2026-03-02
reading add PT-1 1.048 1.047 1.048 --temp 27C --original --on 2026-03-02T10:00
reading add PT-1 1.026 --temp 21C --on 2026-03-05T18:00
reading add PT-1 1.029 --temp 21C --degassed no --on 2026-03-06T08:00
reading exclude 5 --reason 'full of bubbles'
reading add PT-1 1.011 --temp 19C --on 2026-03-13T18:00
addition add sugar PT-1 100g --on 2026-03-13T18:30
reading add PT-1 1.016 --temp 20C --on 2026-03-14T18:00
reading add PT-1 1.009 --temp 20C --on 2026-03-20T18:00
"""
BOTTLES = INSTRUMENTS + """
batch add PT-1 --drink 'pear and thyme' --vessel bottles --volume 5L --on 2026-03-02
reading add PT-1 1.048 1.047 1.048 --temp 27C --original --on 2026-03-02T10:00
reading add PT-1 1.012 --temp 21C --bottle A --on 2026-03-09T10:00
reading add PT-1 1.008 --temp 21C --bottle B --on 2026-03-09T10:05
reading add PT-1 1.0125 --temp 21C --bottle C --on 2026-03-09T10:10
"""
WEEK = INSTRUMENTS + """
batch add PT-1 --drink 'pear and thyme' --culture mixed --vessel bottle --volume 5L --on 2026-03-01
reading add PT-1 1.048 1.047 1.048 --temp 27C --original --on 2026-03-02T10:00
""" + "".join(f"reading add PT-1 {gravity} --temp 21C --bottle A --on 2026-03-{day:02}T18:00\n"
              for day, gravity in enumerate("1.044 1.037 1.028 1.0195 1.0145 1.012 1.011".split(), 3))
REPORTS = [f"report PT-1 --out {PAGE}", f"report PT-1 --audience --out {PAGE}"]


def lines(text):
    return [shlex.split(line) for line in text.splitlines() if line]


def hostile(name):
    """One name for everything that has one."""
    fields = [option(f, name) for f in ("drink", "vessel", "note")]
    read = [option(f, name) for f in ("bottle", "by", "note")]
    return [
        ["batch", "add", *fields, "--on", "2026-03-02", "--", name],
        ["reading", "add", "--original", "--temp", "27C", "--on", "2026-03-02", "--", name, "1.048"],
        ["reading", "add", "--temp", "20C", *read, "--on", "2026-03-05T10:00", "--", name, "1.020"],
        ["reading", "add", "--temp", "20C", *read, "--on", "2026-03-09T10:00", "--", name, "1.011"],
        ["reading", "exclude", "2", option("reason", name)],
    ]


CASES = {title: (lines(steps), [shlex.split(r) for r in REPORTS])
         for title, steps in {"jar": JAR, "bottles": BOTTLES}.items()}  # fmt: skip
CASES["week"] = (lines(WEEK), [shlex.split(r + " --limit 0.5") for r in REPORTS])
CASES["tables"] = (lines(INSTRUMENTS), [
    shlex.split(f"table {table} --out {PAGE}") for table in (
        "conversion --step 0.010", "temperature --instrument stem-1 --step 5C",
        "refractometer --originals 10,12", "solution salt --to 1.020")])  # fmt: skip
CASES["certificate"] = (lines(INSTRUMENTS), [
    shlex.split(f"certificate stem-1 --by 'the owner' --place kitchen --out {PAGE}"),
])  # fmt: skip
CASES["certificate-hostile"] = (lines(INSTRUMENTS), [
    ["certificate", "stem-1", option("by", name), option("for", name), "--out", PAGE]
    for name in NAMES[::5]
])  # fmt: skip
CASES["bench"] = (lines(INSTRUMENTS), [shlex.split(f"table {what} --out {PAGE}")
                                       for what in ("card stem-1", "log")])  # fmt: skip
for i, name in enumerate(NAMES):
    CASES[f"hostile-{i}"] = (lines(INSTRUMENTS) + hostile(name), [
        ["report", *(["--audience"] if i % 3 == 0 else []), "--out", PAGE, "--", name],
    ])  # fmt: skip


# --- how they run ---------------------------------------------------------------------------------
def call(program, command, folder):
    kept = {k: v for k, v in os.environ.items() if k == "PATH" or k.endswith("SAN_OPTIONS")}
    done = subprocess.run(
        [program, *command], cwd=folder, stdin=subprocess.DEVNULL, capture_output=True,
        timeout=TIMEOUT_S, env=kept | {
            "HOME": str(folder),
            "AREO_NOTEBOOK": str(folder / "notebook.db"),
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
        })  # fmt: skip
    if done.returncode:
        shown = b" ".join(os.fsencode(word)[:40] for word in command)
        said = done.stderr[:500].decode(errors="replace")
        raise ValueError(f"{shown!r} exits {done.returncode}: {said}")


def few_sheets(page, command, name):
    """What is for an audience or for the wall goes on one sheet, the report of a week on three; what
    hostile names make of it is another matter."""
    most = 1 if "--audience" in command or command[0] == "table" else SHEETS.get(name.split("-")[0])
    if name.startswith("hostile") or most is None or max(page.paper.values()) <= most:
        return True
    print(f"{name}: more than {most} sheet{'s' if most > 1 else ''}")
    return False


def run_case(program, browser, title, screenshots=None):
    """Whether each page of the case is good."""
    steps, writers = CASES[title]
    good = []
    with tempfile.TemporaryDirectory(prefix="areo-pages-") as name:
        try:
            for step in steps:
                call(program, step, Path(name))
        except (ValueError, subprocess.TimeoutExpired) as e:
            print(f"{title}: {e}")
            return [False]
        for number, command in enumerate(writers, 1):
            # Its name is that of the screenshots.
            file = Path(name, f"{title}-{number}.html")
            try:
                call(program, command, Path(name))
                Path(name, PAGE).rename(file)
            except (ValueError, OSError, subprocess.TimeoutExpired) as e:
                print(f"{file.name}: {e}")
                good.append(False)
            else:
                page = pages.check(browser, file, screenshots)
                good.append(pages.report(page, file.name) and few_sheets(page, command, file.name))
    return good


def run(program, browser, titles, screenshots=None):
    good = [g for title in titles for g in run_case(program, browser, title, screenshots)]
    print(f"{len(good)} pages, {good.count(False)} refused")
    return all(good)


FAKE = """#!/usr/bin/env python3
# Knows no command but `report`, and that one page only.
import shutil, sys
if sys.argv[1] == "report" and {writes}:
    shutil.copy("{folder}/fake.html", sys.argv[sys.argv.index("--out") + 1])
sys.exit({code})
"""


def selftest():
    """Number of programs that were judged wrongly."""
    import selftest as made

    wrong = 0
    faint = made.GOOD.replace("color: #555", "color: #999")
    with tempfile.TemporaryDirectory(prefix="areo-fake-") as folder, Browser() as browser:
        program, page = Path(folder, "program"), Path(folder, "fake.html")
        for title, code, writes, text in [
            ("good", 0, True, made.GOOD),
            ("writes a bad page", 0, True, faint),
            ("writes no page", 0, False, made.GOOD),
            ("fails", 1, True, made.GOOD),
        ]:
            page.write_text(text, encoding="utf-8")
            program.write_text(FAKE.format(writes=writes, code=code, folder=folder))
            program.chmod(0o755)
            if run(program, browser, ["jar"]) != (title == "good"):
                wrong += 1
                print(f"selftest: wrong about a program that is: {title}")
    print(f"selftest: {f'{wrong} wrong' if wrong else 'ok'}")
    return wrong


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=Path)
    parser.add_argument("--screenshots", type=Path, metavar="DIR")
    parser.add_argument("--selftest", action="store_true")
    parser.add_argument("cases", nargs="*", metavar="CASE", help=" ".join(CASES))
    args = parser.parse_args()
    skip_without_browser()
    if args.selftest:
        return 1 if selftest() else 0
    if not args.program:
        parser.error("--program is needed")
    if unknown := [c for c in args.cases if c not in CASES]:
        parser.error(f"no such case: {', '.join(unknown)}")
    if args.screenshots:
        args.screenshots.mkdir(parents=True, exist_ok=True)
    with Browser() as browser:
        good = run(args.program.resolve(), browser, args.cases or list(CASES), args.screenshots)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
