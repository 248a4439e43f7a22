#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Loads pages in Chromium and refuses what a reader would stumble over.

  pages.py [--screenshots DIR] FILE.html...
  pages.py --selftest        each check must refuse a page that breaks only its rule

A page is one file without scripts. It is looked at on a phone and on a desktop, in light and in
dark colours, and on two sizes of paper. --screenshots writes PNGs for people; nothing is compared
to them.
"""

import argparse
import base64
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

from webdriver import Browser, skip_without_browser

MEASURE = Path(__file__).with_name("measure.js").read_text(encoding="utf-8")
CONTRAST = 4.5  # of text, WCAG 2 level AA
SCREENS = {"phone": (360, 640), "tablet": (768, 1024), "desktop": (1280, 900)}
PAPERS_IN = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11)}
PX_PER_IN = 96  # of CSS
MARGIN_IN = 1 / 2.54  # Chromium's own
SCREENSHOT_PX = 8000  # of height; a page can be as long as the names in it
# What tidy 5.6 takes for wrong although HTML allows it:
FALSE_WARNINGS = [
    # It takes the title of a drawing for that of the page.
    r'<title> proprietary attribute "id"',
]


class Source(HTMLParser):
    """What the file says before any script has had its way."""

    def __init__(self, text):
        super().__init__()
        self.title, self.scripts, self.inside = None, 0, False
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.scripts += tag == "script"
        if tag == "title" and self.title is None:
            self.title, self.inside = "", True

    def handle_endtag(self, tag):
        self.inside = self.inside and tag != "title"

    def handle_data(self, data):
        if self.inside:
            self.title += data


class Page:
    """One page in the browser, and what was found in it."""

    def __init__(self, browser, path):
        self.browser, self.path = browser, Path(path).resolve()
        self.view = ""
        self.found = {}  # (check, problem) -> the views that show it
        self.paper = {}  # name -> number of sheets

    def refuse(self, check, problem):
        views = self.found.setdefault((check, problem), [])
        views += [self.view] if self.view else []

    def measure(self, *names):
        return self.browser.script(MEASURE, CONTRAST, names)

    def show(self, view, size, scheme="light", media="screen"):
        self.view = view
        self.browser.cdp("Emulation.setDeviceMetricsOverride", width=size[0], height=size[1],
                         deviceScaleFactor=1, mobile=size == SCREENS["phone"])  # fmt: skip
        self.browser.cdp("Emulation.setEmulatedMedia", media=media,
                         features=[{"name": "prefers-color-scheme", "value": scheme}])  # fmt: skip


def collapse(text):
    """White space as a browser's title has it."""
    return re.sub("[ \t\n\f\r]+", " ", text).strip(" ")


def check_document(page):
    """What does not depend on the window."""
    browser = page.browser
    source = Source(page.path.read_text(encoding="utf-8", errors="replace"))
    facts = browser.script("""
      const all = (selector) => [...document.querySelectorAll(selector)];
      const attributes = (e) => [...e.attributes];
      const runs = (a) => /^on/i.test(a.name) || /^\\s*javascript:/i.test(a.value);
      return {
        lang: document.documentElement.lang.trim(),
        viewport: document.querySelector('meta[name=viewport]')?.content ?? '',
        title: document.title,
        scripts: all('script').length,
        handlers: all('*').flatMap(attributes).filter(runs).map((a) => a.name),
        headings: all('h1,h2,h3,h4,h5,h6').map((e) => +e.localName[1]),
        unmarked: all('svg').filter((e) => e.getAttribute('role') !== 'img').length,
      };""")
    if not facts["lang"]:
        page.refuse("lang", "<html> does not say its language")
    if "width=device-width" not in facts["viewport"].replace(" ", ""):
        page.refuse("viewport", f"viewport is {facts['viewport']!r}")
    if not facts["title"].strip():
        page.refuse("title", "no title")
    elif facts["title"] != collapse(source.title or ""):
        page.refuse("title", f"{source.title!r} became {facts['title']!r}"[:300])
    if scripts := max(facts["scripts"], source.scripts):
        page.refuse("script", f"{scripts} script elements")
    for name in sorted(set(facts["handlers"])):
        page.refuse("script", f"the attribute {name} runs a script")
    levels = facts["headings"]
    if levels.count(1) != 1:
        page.refuse("headings", f"{levels.count(1)} h1")
    for before, level in zip([0, *levels], levels):
        if level > before + 1:
            page.refuse("headings", f"h{level} where h{before + 1} is due")
    if facts["unmarked"]:
        page.refuse("names", f"{facts['unmarked']} svg without role=img")
    for element in browser.find("svg, img"):
        if not browser.accessible_name(element).strip():
            page.refuse("names", "a picture without a name")


def check_screen(page):
    facts = page.measure("size", "pictures", "cutText", "faintText", "brokenHeads")
    content, window = facts["size"]["content"], facts["size"]["window"]
    if content > window:
        page.refuse("scroll", f"{content} px of content in {window} px")
    for picture in facts["pictures"]:
        if not picture["loaded"]:
            page.refuse("pictures", f"{picture['what']} is broken")
        elif not picture["visible"]:
            page.refuse("pictures", f"{picture['what']} cannot be seen")
        elif not picture["within"]:
            page.refuse("pictures", f"{picture['what']} leaves the page")
    for what in facts["cutText"]:
        page.refuse("pictures", f"{what!r} leaves its drawing")
    for what in facts["brokenHeads"]:
        page.refuse("heads", f"a word is broken in {what}")
    for text in facts["faintText"]:
        ratio = f"{text['ratio']:.2f}" if text["ratio"] else "unknown, it is on a picture"
        page.refuse("contrast", f"{text['what']!r}: contrast {ratio}")


def check_paper(page, name):
    width, height = PAPERS_IN[name]
    # Chromium shrinks what is too wide, so the PDF itself would not show it.
    room = width * PX_PER_IN - sum(
        MARGIN_IN * PX_PER_IN if margin is None else margin
        for margin in page.measure("paperMargins")["paperMargins"])  # fmt: skip
    page.show(name, (int(room), int(height * PX_PER_IN)), media="print")
    facts = page.measure("size", "tooWide", "brokenHeads")
    for what in facts["brokenHeads"]:
        page.refuse("heads", f"a word is broken in {what}")
    for what in facts["tooWide"]:
        page.refuse("print", f"{what} is wider than the paper")
    if (content := facts["size"]["content"]) > facts["size"]["window"]:
        page.refuse("print", f"{content} px of content on {int(room)} px of paper")
    pdf = base64.b64decode(page.browser.cdp(
        "Page.printToPDF", paperWidth=width, paperHeight=height)["data"])  # fmt: skip
    page.paper[name] = len(re.findall(rb"/Type\s*/Page\b", pdf))
    if not pdf.startswith(b"%PDF-") or not page.paper[name]:
        page.refuse("print", "no sheet comes out")


def check_logs(page):
    """After all views: a style for dark or for paper may ask for more."""
    page.view = ""
    for entry in page.browser.take_log("browser"):
        if entry["level"] in ("WARNING", "SEVERE"):
            page.refuse("console", f"{entry['level'].lower()}: {entry['message']}"[:300])
    for url in page.browser.requests():
        if not url.startswith("data:") and unquote(url) != unquote(page.path.as_uri()):
            page.refuse("network", f"asks for {url[:200]}")
    for text in page.browser.alerts:
        page.refuse("alert", f"a window opened: {text[:80]!r}")
    page.browser.alerts.clear()


def check_tidy(page):
    done = subprocess.run(
        ["tidy", "-q", "-e", "-utf8", "--show-warnings", "yes", page.path],
        capture_output=True, timeout=60)  # fmt: skip
    said = done.stderr.decode(errors="replace").splitlines()
    for line in said:
        if not any(re.search(false, line) for false in FALSE_WARNINGS):
            page.refuse("tidy", line)
    if done.returncode and not said:
        page.refuse("tidy", f"tidy exits {done.returncode}")


def screenshot(page, width, folder):
    height = min(page.measure("size")["size"]["height"], SCREENSHOT_PX)
    png = page.browser.cdp(
        "Page.captureScreenshot", captureBeyondViewport=True,
        clip={"x": 0, "y": 0, "width": width, "height": height, "scale": 1})["data"]  # fmt: skip
    name = f"{page.path.stem}-{page.view.replace(' ', '-')}.png"
    (folder / name).write_bytes(base64.b64decode(png))


def check(browser, path, screenshots=None, papers=PAPERS_IN):
    """The page, with what was found in it."""
    page = Page(browser, path)
    page.show("", SCREENS["phone"])
    browser.take_log("browser")  # what comes from here on is of this page
    browser.requests()
    browser.open(page.path.as_uri())
    # What can be unfolded is part of the page.
    browser.script("for (const e of document.querySelectorAll('details')) e.open = true;")
    check_document(page)
    for name, size in SCREENS.items():
        for scheme in ("light", "dark"):
            page.show(f"{name} {scheme}", size, scheme)
            check_screen(page)
            if screenshots:
                screenshot(page, size[0], Path(screenshots))
    for name in papers:
        check_paper(page, name)
    check_logs(page)
    check_tidy(page)
    return page


def report(page, name):
    """Prints what was found; whether the page is good."""
    for (kind, problem), views in page.found.items():
        print(f"{name}: {kind}: {problem}" + (f" ({', '.join(views)})" if views else ""))
    if not page.found:
        print(f"{name}: good; sheets: {', '.join(f'{n} {p}' for p, n in page.paper.items())}")
    return not page.found


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--screenshots", type=Path, metavar="DIR")
    parser.add_argument("--selftest", action="store_true")
    parser.add_argument("pages", nargs="*", type=Path)
    args = parser.parse_args()
    skip_without_browser()
    if args.selftest:
        import selftest  # it needs this module

        return 1 if selftest.run() else 0
    if not args.pages:
        parser.error("a page is needed")
    if missing := [str(p) for p in args.pages if not p.is_file()]:
        parser.error(f"no such file: {', '.join(missing)}")
    if args.screenshots:
        args.screenshots.mkdir(parents=True, exist_ok=True)
    with Browser() as browser:
        good = [report(check(browser, p, args.screenshots), p) for p in args.pages]
    print(f"{len(good)} pages, {good.count(False)} refused")
    return 0 if all(good) else 1


if __name__ == "__main__":
    sys.exit(main())
