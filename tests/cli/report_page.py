#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Pages and pictures of `areo report`: what is in them.

  report_page.py --program PATH
  report_page.py --selftest       the checks must fail on a program that does everything wrong

How a page looks in a browser is for tests/browser.
"""

import re
import subprocess
import sys
from html.parser import HTMLParser
from xml.etree import ElementTree

from hostile_names import NAMES
from robust import main

INSTRUMENT = """instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate fit stem-1"""
JAR = """batch add PT-1 --drink pear --vessel jar --volume 5L --on 2026-03-02
reading add PT-1 1.048 --temp 21C --original --on 2026-03-02T10:00
reading add PT-1 1.0445 --temp 21C --on 2026-03-04T10:00
reading add PT-1 1.037 --temp 21C --on 2026-03-05T10:00
reading add PT-1 1.028 --temp 21C --on 2026-03-06T10:00
reading add PT-1 1.0195 --temp 21C --on 2026-03-07T10:00
reading add PT-1 1.0145 --temp 21C --on 2026-03-08T10:00
reading add PT-1 1.099 --temp 21C --on 2026-03-08T18:00 --yes
reading exclude 7 --reason misread
reading add PT-1 1.012 --temp 21C --on 2026-03-09T10:00
reading add PT-1 1.011 --temp 21C --on 2026-03-11T10:00"""
BOTTLES = """batch add PT-2 --drink pear --volume 5L --on 2026-03-02
reading add PT-2 1.048 --temp 21C --original --on 2026-03-02T10:00
reading add PT-2 1.012 --temp 21C --bottle A --on 2026-03-09T10:00
reading add PT-2 1.008 --temp 21C --bottle B --on 2026-03-09T10:05"""


NAMESPACE = "{http://www.w3.org/2000/svg}"
SVG = "<svg.*?</svg>"


class Page(HTMLParser):
    """The text of a page by the elements that hold it, and its pictures, as XML."""

    def __init__(self, html):
        super().__init__()
        self.open, self.texts, self.tags = [], {}, set()
        self.pictures = [ElementTree.fromstring(svg) for svg in re.findall(SVG, html, re.S)]
        self.feed(re.sub(SVG, "", html, flags=re.S))
        self.text = " ".join(t for all_of_kind in self.texts.values() for t in all_of_kind)

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        if tag not in ("meta", "br"):
            self.open.append(tag)
            self.texts.setdefault(tag, []).append("")

    def handle_endtag(self, tag):
        assert self.open and self.open[-1] == tag, f"</{tag}> inside {self.open[-3:]}"
        self.open.pop()

    def handle_data(self, data):
        if self.open:
            self.texts[self.open[-1]][-1] += data


def prepared(bench, *steps):
    for command in "\n".join([INSTRUMENT, *steps]).splitlines():
        bench.good(command)


def written(bench, name="page.html"):
    assert (bench.folder / name).exists(), f"there is no {name}"
    return (bench.folder / name).read_bytes()


def page_of(bench, command):
    bench.good(f"{command} --out page.html")
    return Page(written(bench).decode())


def tells_what_the_commands_tell(bench):
    prepared(bench, JAR)
    page = page_of(bench, "report PT-1 --limit 0.5")
    assert page.texts["h1"] == ["PT-1: pear"], page.texts["h1"]
    assert page.texts["title"] == ["PT-1: pear"]
    trend = bench.good("trend PT-1 --limit 0.5").splitlines()
    cells = page.texts["td"]
    rows = [re.split(r"  +", row.strip()) for row in trend if re.match(r"  \d+ +2026", row)]
    assert len(rows) == 8, trend
    for row in rows:
        for cell in row:
            assert cell in cells, (cell, cells)
    state = next(row for row in trend if row.startswith("state: "))
    assert state in page.text, state
    for start in ("outlook: ", "Under "):
        said = next(row for row in trend if row.startswith(start))
        assert said[0].upper() + said[1:] in page.text, said
    headline = page.texts["strong"][0]
    assert headline == f"{rows[-1][4]} % vol (about 95 %)", (headline, rows[-1])
    for said in ("excluded: misread", "stem-1: SUBTRACT", "accredited laboratory decide",
                 "make pressure in a closed bottle", "tolman1917", "What each measure alone would gain"):  # fmt: skip
        assert said in page.text, said
    assert "safe" not in page.text.lower()
    assert not page.tags & {"script", "link", "iframe", "object"}, page.tags


def words(picture):
    """The texts of a picture: its axes, and what it holds."""
    return ["".join(e.itertext()).strip() for e in picture.iter() if e.tag.endswith("text")]


def pictures_hold_what_was_read(bench):
    prepared(bench, JAR)
    gravity, alcohol, residuals = page_of(bench, "report PT-1 --limit 0.5").pictures
    for picture, held in [(gravity, ["gravity 20/20", "curve through the readings", "reading ± U"]),
                          (alcohol, ["alcohol, % vol", "strength ± U", "limit 0.5 % vol"]),
                          (residuals, ["check less fit", "check ± U", "the fit"])]:  # fmt: skip
        for word in held:
            assert word in words(picture), (word, words(picture))
    assert "limit 0.5 % vol" not in words(page_of(bench, "report PT-1").pictures[1])
    bench.good("reading add PT-1 1.021 --temp 21C --on 2026-03-10T10:00")
    assert "odd reading ± U" in words(page_of(bench, "report PT-1").pictures[0])
    bench.good("addition add sugar PT-1 100g --on 2026-03-11T12:00")
    for picture in page_of(bench, "report PT-1").pictures[:2]:
        assert "sugar, 100g" in words(picture), words(picture)


def a_bound_is_drawn_as_one(bench):
    prepared(bench, JAR.replace("--vessel jar", "--culture acetic"))
    alcohol = words(page_of(bench, "report PT-1").pictures[1])
    assert "upper bound of it" in alcohol and "strength ± U" not in alcohol, alcohol


def bottles_have_additions_of_their_own(bench):
    prepared(bench, BOTTLES)
    bench.good("addition add sugar PT-2 5g --bottle A --into 0.7L --on 2026-03-10T10:00")
    bench.good("reading add PT-2 1.014 --temp 21C --bottle A --on 2026-03-11T10:00")
    bench.good("reading add PT-2 1.007 --temp 21C --bottle B --on 2026-03-11T10:05")
    for bottle, held in (("A", True), ("B", False)):
        page = page_of(bench, f"report PT-2 --bottle {bottle}")
        drawn = any(w.startswith("sugar, 5g") for w in words(page.pictures[0]))
        assert drawn == held == ("sugar, 5g" in page.text), (bottle, words(page.pictures[0]))


def has_pictures(bench):
    prepared(bench, JAR)
    page = page_of(bench, "report PT-1")
    # Gravity, alcohol, and what the fit of the calibration leaves.
    assert len(page.pictures) == 3, len(page.pictures)
    for picture in page.pictures:
        assert picture.tag == NAMESPACE + "svg" and picture.get("role") == "img", picture.tag
        assert picture.get("viewBox") and not picture.get("width"), "it scales"
        assert len(picture.findtext(NAMESPACE + "title")) > 20, picture[0].text
    bench.environment["PATH"] = "/nonexistent"
    bench.good("report PT-1 --plot a.svg")
    alone, within = ElementTree.fromstring(written(bench, "a.svg")), page.pictures[0]
    assert ElementTree.tostring(alone).strip() == ElementTree.tostring(within).strip()
    code, out, err = bench.run("report PT-1 --plot a.png")
    assert code == 3 and not out and ".svg opens in any browser" in err, (code, out, err)
    assert not (bench.folder / "a.png").exists()


def a_picture_goes_on_paper(bench):
    """Alone, on one sheet, as lines and words."""
    prepared(bench, JAR)
    bench.good("report PT-1 --plot a.pdf")
    file = str(bench.folder / "a.pdf")
    assert re.search(r"^Pages: +1$", tool("pdfinfo", file), re.M), "one sheet"
    text = tool("pdftotext", "-layout", file, "-")
    for held in ("gravity 20/20", "reading ± U", "03-04", "2026"):
        assert held in text, (held, text)
    assert "PT-1" not in text, "nothing else"
    assert not tool("pdfimages", "-list", file).splitlines()[2:], "a picture has become dots"


def tells_of_all_bottles(bench):
    prepared(bench, BOTTLES)
    page = page_of(bench, "report PT-2")
    assert [t for t in page.texts["h2"] if t.startswith("Bottle ")] == ["Bottle A", "Bottle B"]
    assert "A and B: DIFFERENT, B is stronger by" in page.text
    page = page_of(bench, "report PT-2 --bottle B")
    assert "Bottle A" not in page.text and "The bottles compared" not in page.text
    code, _, err = bench.run("report PT-2 --plot a.svg")
    assert code == 3 and "--bottle" in err, (code, err)


def is_short_for_an_audience(bench):
    prepared(bench, JAR)
    page = page_of(bench, "report PT-1 --audience --limit 0.5")
    assert page.texts["h2"] == ["What was measured", "What it means", "How sure that is",
                                "What could be wrong"]  # fmt: skip
    assert len(page.pictures) == 1 and "table" not in page.tags
    assert "It is above 0.5 % vol (95 % sure)." in page.text
    # 789.239 kg/m3 [oimlr22], to the printed digits.
    said = r"([\d.]+) to ([\d.]+) % vol on \S+ with about 95 %: ([\d.]+) to ([\d.]+) g of alcohol in "
    for option, ml in (("", 200), (" --glass 150mL", 150)):
        text = page_of(bench, "report PT-1 --audience --limit 0.5" + option).text
        found = re.search(said + rf"a glass of {ml} mL", text)
        assert found, text
        for percent, grams in ((found[1], found[3]), (found[2], found[4])):
            last, of_percent = (10 ** -len(x.partition(".")[2]) for x in (grams, percent))
            each = 0.789239 * ml / 100
            assert abs(float(percent) * each - float(grams)) < last + of_percent * each, found[0]
    assert "these readings do not show" in page.text or "no change was seen" in page.text
    assert not re.search(r"\[[a-z-]+\d{4}\]|_percent", page.text), page.text
    sentences = [s.strip() for s in re.split(r"(?<=[.:;])\s", page.text) if len(s) > 30]
    assert len(sentences) == len(set(sentences)), sorted(sentences)
    assert "accredited laboratory decide" in page.text
    assert "make pressure in a closed bottle" in page.text


# What a workshop and a laboratory say, and nobody at a table.
TRADE_WORDS = r"\b(?:yield|corrections?|meniscus|uncertaint|expanded|variance|DIFFERENT|NOT TOLD|culture|fermented|indication|checked part)"


def speaks_everyday_words_to_guests(bench):
    for setup, batch in ((JAR, "PT-1"), (BOTTLES, "PT-2")):
        bench.notebook.unlink(missing_ok=True)
        prepared(bench, setup)
        text = page_of(bench, f"report {batch} --audience --limit 0.5").text
        text = text.partition("What was measured")[2]
        assert text.count("ost of the doubt is about how ") == (1 if batch == "PT-1" else 2), text
        assert not re.search(TRADE_WORDS, text), re.findall(".{30}" + TRADE_WORDS, text)


def shows_any_name_as_text(bench):
    prepared(bench)
    for name in NAMES:
        for command in (["batch", "add", "--on", "2026-03-02", "--", name],
                        ["reading", "add", "--original", "--temp", "21C", "--on", "2026-03-02",
                         "--", name, "1.048"],
                        ["reading", "add", "--temp", "21C", "--on", "2026-03-05T10:00", "--", name,
                         "1.020"],
                        ["report", "--out", "page.html", "--", name]):  # fmt: skip
            bench.good(command)
        page = Page(written(bench).decode())
        text = name.decode(errors="replace")
        if text.isprintable() and "\ufffd" not in text:
            assert page.texts["h1"] == [text], (text[:40], page.texts["h1"][0][:40])
        assert not page.tags & {"script", "b", "a"}, (text[:40], page.tags)


def leaves_files_whole(bench):
    prepared(bench, JAR)
    page = bench.folder / "page.html"
    page.write_text("an older one")
    bench.good("report PT-1 --out page.html")
    assert page.read_text(encoding="utf-8").endswith("</html>\n")
    code, out, err = bench.run("report PT-1 --out nowhere/page.html")
    assert code == 4 and not out and "cannot be written" in err, (code, out, err)
    page.write_text("an older one")
    code, _, err = bench.run("report PT-1 --out page.html --plot a.gif")
    assert code == 3 and ".svg or .pdf" in err, (code, err)
    assert page.read_text() == "an older one", "nothing is written if a part is wrong"
    assert [f.name for f in bench.folder.glob("*.partial")] == []
    before = bench.notebook.read_bytes()
    (bench.folder / "link.svg").symlink_to(bench.notebook)
    (bench.folder / "link.html").symlink_to(bench.notebook)
    (bench.folder / "pipe.html").symlink_to("/dev/null")
    bench.good("backup copy.html")
    for command, why in [("--out link.html", "is the notebook"),
                         ("--plot link.svg", "is the notebook"),
                         ("--out copy.html", "is a notebook, or another database"),
                         ("--out x.pdf --plot x.pdf", "is the picture's file too"),
                         ("--out pipe.html", "is not an ordinary file"),
                         (f"--out {bench.notebook}", "does not say what it is to be"),
                         ("--out readings.csv", "a report is not a table")]:  # fmt: skip
        code, out, err = bench.run(f"report PT-1 {command}")
        assert code in (2, 3, 4) and not out and why in err, (command, code, out, err)
    assert bench.notebook.read_bytes() == before
    (bench.folder / "link.html").unlink()
    (bench.folder / "link.html").symlink_to(page)
    bench.good("report PT-1 --out link.html")
    assert (bench.folder / "link.html").is_symlink() and page.read_bytes() == written(bench)
    assert page.read_text(encoding="utf-8").endswith("</html>\n")


def as_sheets_of_paper(bench):
    """The page as PDF: its text, its pictures as drawings, its fonts in it."""
    prepared(bench, JAR)
    out = bench.good("report PT-1 --out page.pdf --limit 0.5")
    assert "page.pdf: sheets to print" in out, out
    file = str(bench.folder / "page.pdf")
    fonts = tool("pdffonts", file).splitlines()[2:]
    assert fonts and all(" yes yes yes " in font for font in fonts), fonts
    text = tool("pdftotext", "-layout", file, "-")
    # Words of the page, and words within its pictures.
    for words in ("PT-1: pear", "Where the uncertainty comes from", "sheet 1 of", "curve through the readings",
                  "limit 0.5 % vol", "check ± U"):  # fmt: skip
        assert words in text, f"{words!r} is not on paper"
    images = tool("pdfimages", "-list", file).splitlines()[2:]
    assert not images, "a picture has become dots"


def tool(*command):
    done = subprocess.run(command, capture_output=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    return done.stdout


def cells(page):
    """Of the tables: the heads, and what stands below them."""
    return [c.replace("\xa0", " ") for c in page.texts["th"]], page.texts["td"]


def has_units_in_heads(bench):
    prepared(bench, JAR)
    heads, below = cells(page_of(bench, "report PT-1 --limit 0.5"))
    for head in ("alcohol, % vol", "real extract, % mass", "real attenuation, %", "part, % vol"):
        assert head in heads, (head, heads)
    numbers = [c for c in below if re.match(r"(below |at least )?[-±]? ?[0-9]", c)]
    assert len(numbers) > 30, numbers
    for cell in numbers:
        assert not re.search(r"% (vol|mass)|SG", cell), cell


def tells_shared_readings_once(bench):
    """What was read before bottles were filled is no bottle, and stands in one table."""
    prepared(bench, BOTTLES)
    bench.good("reading add PT-2 1.030 --temp 21C --on 2026-03-05T10:00")
    bench.good("addition add sugar PT-2 5g --on 2026-03-05T11:00")
    page = page_of(bench, "report PT-2")
    below = page.texts["td"]
    for when in ("2026-03-02 10:00", "2026-03-05 10:00", "2026-03-09 10:00", "2026-03-09 10:05"):
        assert below.count(when) == 1, (when, below.count(when))
    assert page.text.count("the original gravity was") == 1 == page.text.count("sugar, 5g")
    assert [h.partition(":")[0] for h in page.texts["strong"]] == ["Bottle A", "Bottle B"]
    assert "The batch, before its bottles were filled" in page.texts["h2"], page.texts["h2"]
    # It goes on in the jar: then it has an account of its own, with all of its readings.
    bench.good("reading add PT-2 1.011 --temp 21C --on 2026-03-10T10:00")
    page = page_of(bench, "report PT-2")
    below = page.texts["td"]
    assert below.count("2026-03-02 10:00") == 1 == below.count("2026-03-10 10:00")
    assert "The batch" in page.texts["h2"], page.texts["h2"]
    # Of one bottle all is told together.
    below = page_of(bench, "report PT-2 --bottle A").texts["td"]
    assert below.count("2026-03-02 10:00") == 1 == below.count("2026-03-09 10:00")


def says_nothing_twice(bench):
    prepared(bench, JAR, BOTTLES)
    for batch, kinds, apart in [
        ("PT-1", ("p", "li", "caption", "figcaption"), r"(?<=[.:;?])\s"),
        # Of two bottles a part of a sentence may be the same.
        ("PT-2", ("li", "caption", "figcaption"), r"(?<=\.)\s"),
    ]:
        page = page_of(bench, f"report {batch} --limit 0.5")
        said = [t for kind in kinds for t in page.texts[kind]]
        parts = [s.strip(" .").lower() for t in said for s in re.split(apart, t)]
        parts = [p for p in parts if len(p) > 20]
        twice = {p for p in parts if parts.count(p) > 1}
        assert len(parts) > 20 and not twice, twice


CHECKS = [tells_what_the_commands_tell, has_units_in_heads, tells_shared_readings_once,
          says_nothing_twice, has_pictures, pictures_hold_what_was_read,
          a_bound_is_drawn_as_one, bottles_have_additions_of_their_own, a_picture_goes_on_paper,
          tells_of_all_bottles, is_short_for_an_audience, speaks_everyday_words_to_guests,
          shows_any_name_as_text,
          leaves_files_whole, as_sheets_of_paper]  # fmt: skip

if __name__ == "__main__":
    sys.exit(main(CHECKS))
