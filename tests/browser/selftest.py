# SPDX-License-Identifier: GPL-3.0-or-later
"""A good page, and pages that break one rule each: a checker that accepts one of them is blind."""

import base64
import contextlib
import http.server
import os
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

import pages
from webdriver import SKIPPED, Browser

PNG = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6"
    "kgAAAABJRU5ErkJggg==")  # fmt: skip
GOOD = f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Batch  &lt;PT-1&gt;</title>
<style>
:root {{ color-scheme: light dark; }}
body {{ margin: 1rem; }}
svg, img {{ display: block; width: 100%; max-width: 20rem; height: auto; }}
.box {{ overflow-x: auto; }}
.quiet {{ color: #555; }}
@media (prefers-color-scheme: dark) {{ .quiet {{ color: #aaa; }} }}
@page {{ margin: 15mm; }}
</style>
</head>
<body>
<h1>Batch</h1>
<p class="quiet">Words</p>
<h2>Plot</h2>
<svg role="img" aria-labelledby="t" viewBox="0 0 100 50">
<title id="t">Gravity over time</title>
<rect width="100" height="50" fill="#ffe"/>
<clipPath id="c"><rect width="100" height="50"/></clipPath>
<text x="5" y="20" font-size="8" fill="#222">1.048</text>
</svg>
<h3>Rows</h3>
<div class="box"><table><tr><th scope="row">1</th><td>1.048</td></tr></table></div>
<details><summary>More</summary>
<p>Folded</p>
<p style="position: absolute; width: 1px; height: 1px; overflow: hidden">For those who listen</p>
<img alt="A square" src="data:image/png;base64,{base64.b64encode(PNG).decode()}">
</details>
<h2>End</h2>
</body>
</html>
"""

STYLE, END = "</style>", "</body>"
DRAWING = '<svg role="img" aria-label="x" viewBox="0 0 9 9" {}><path d="M0 0h9v9z"/></svg>'
SERVER = "http://127.0.0.1:{port}"


def before(mark, more):
    return {mark: more + mark}


# Title, what is replaced in the good page, and the checks that must refuse it: no other may.
BAD = [
    ("scrolls sideways on a phone", before(END, '<p style="width: 400px">x</p>'), "scroll"),
    ("broken picture", before(END, '<img alt="x" src="data:image/png;base64,AAAA">'), "pictures"),
    ("drawing without size", before(END, DRAWING.format('style="width: 0"')), "pictures"),
    ("transparent drawing", before(END, DRAWING.format('style="opacity: 0"')), "pictures"),
    ("drawing off the page", before(END, DRAWING.format('style="margin-left: -40px"')), "pictures"),
    ("words cut off by a drawing", {'<text x="5"': '<text x="90"'}, "pictures"),
    ("drawing without a name", {' aria-labelledby="t"': "", "<title id": "<desc id",
                                "time</title>": "time</desc>"}, "names"),
    ("name that leads nowhere", {'aria-labelledby="t"': 'aria-labelledby="u"',
                                 "<title id": "<desc id", "time</title>": "time</desc>"}, "names"),
    ("drawing without role", {'<svg role="img"': "<svg"}, "names"),
    ("picture without a name", {"A square": ""}, "names"),
    ("error in the console", before(END, "<script>console.error(1)</script>"), "console script"),
    ("error without a script",
     before("<title>B", '<meta http-equiv="X-Frame-Options" content="DENY">'), "console"),
    ("script", before(END, "<script>let x = 1;</script>"), "script"),
    ("script that hides", before(END, "<script>document.currentScript.remove()</script>"),
     "script"),
    ("script in a drawing", before("</svg>", "<script>let x = 1;</script>"), "script"),
    ("script in an attribute", {"<p class": '<p onclick="let x = 1;" class'}, "script"),
    ("script in a link", before(END, '<p><a href="javascript:void(0)">x</a></p>'), "script"),
    ("picture of another machine", before(END, f'<img alt="x" src="{SERVER}/x.png">'), "network"),
    ("picture in another file", before(END, '<img alt="x" src="x.png">'), "network"),
    ("style that asks on paper only",
     before(STYLE, "@media print { .quiet { background: url(x.png) } }"), "network"),
    ("faint in the dark", {".quiet { color: #aaa; }": ".quiet { color: #555; }"}, "contrast"),
    ("faint in the light", {".quiet { color: #555; }": ".quiet { color: #999; }"}, "contrast"),
    ("faint by opacity", before(END, '<div style="opacity: .4"><p>x</p></div>'), "contrast"),
    ("faint in a drawing", {'fill="#222"': 'fill="#998"'}, "contrast"),
    ("faint on a part of a drawing", {'fill="#ffe"': 'fill="#333"'}, "contrast"),
    ("text on a gradient", before(STYLE, ".quiet { background: linear-gradient(#fff, #eee) }"),
     "contrast"),
    ("heading left out", {"<h2>Plot</h2>": ""}, "headings"),
    ("two h1", {"<h2>End</h2>": "<h1>End</h1>"}, "headings"),
    ("no h1", {"<h1>Batch</h1>": ""}, "headings"),
    ("no language", {' lang="en"': ""}, "lang"),
    ("no viewport", {'<meta name="viewport" content="width=device-width, initial-scale=1">': ""},
     "viewport"),
    ("viewport of a desktop", {"width=device-width": "width=1280"}, "viewport"),
    ("empty title", {"Batch  &lt;PT-1&gt;": ""}, "title"),
    ("title set by a script", before(END, "<script>document.title = 'x'</script>"), "title script"),
    ("window of its own", before(END, "<script>alert(1)</script>"), "alert script"),
    ("window from a drawing", before(END, DRAWING.format('onload="alert(1)"')), "alert script"),
    ("invalid HTML", before(END, "<p><b>x</p>"), "tidy"),
    ("the same id twice", before(END, '<p id="a">x</p><p id="a">y</p>'), "tidy"),
    ("head broken on a desktop", {'<th scope="row">1</th>':
     '<th scope="row"><div style="width: 2rem; overflow-wrap: anywhere">gravity</div></th>'},
     "heads"),
    ("head broken on paper", {'<th scope="row">1</th>': '<th scope="row" class="h">gravity</th>',
     STYLE: "@media print { .h { display: block; width: 2rem; overflow-wrap: anywhere } }" + STYLE},
     "heads"),
    ("too wide on paper", before(STYLE, "@media print { .quiet { width: 1000px } }"), "print"),
    ("too wide for its margins", {"margin: 15mm": "margin: 5cm",
                                  STYLE: "@media print { h1 { width: 500px } }" + STYLE}, "print"),
    ("cut off on paper", {"<td>1.048</td>": '<td><div style="width: 900px">x</div></td>'}, "print"),
]  # fmt: skip


class Quiet(http.server.BaseHTTPRequestHandler):
    """Gives every path the same picture."""

    def do_GET(self):
        self.send_response(200)
        self.send_header("Content-Type", "image/png")
        self.end_headers()
        self.wfile.write(PNG)

    def log_message(self, *_):
        pass


@contextlib.contextmanager
def picture_server():
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Quiet) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_port
        server.shutdown()


def changed(replacements):
    text = GOOD
    for old, new in replacements.items():
        assert text.count(old) == 1, f"{old!r} is {text.count(old)} times in the good page"
        text = text.replace(old, new)
    return text


def refused_pages(folder):
    """What is wrong about the pages above, in words."""
    with picture_server() as port, Browser() as browser:
        for title, replacements, checks in [("good", {}, ""), *BAD]:
            file = folder / "page.html"
            file.write_text(changed(replacements).replace("{port}", str(port)), encoding="utf-8")
            # What is refused on the narrower paper is enough; the good page sees everything.
            papers = ["A4"] if checks else pages.PAPERS_IN
            page = pages.check(browser, file, None if checks else folder / "shots", papers)
            refused = {check for check, _ in page.found}
            if refused != set(checks.split()):
                yield f"{title}: expected {checks or 'nothing'}, got {page.found}"
            elif title == "faint in the dark":
                views = sorted(view for shown in page.found.values() for view in shown)
                if views != ["desktop dark", "phone dark", "tablet dark"]:
                    yield f"{title}: refused in {views}"
            elif title == "good" and set(page.paper.values()) != {1}:
                yield f"{title}: sheets {page.paper}"
    known = {check for _, _, checks in BAD for check in checks.split()}
    print(f"{len(BAD)} bad pages; checks: {', '.join(sorted(known))}")


def shown_pages(folder):
    shots = sorted(p.name for p in (folder / "shots").iterdir() if p.stat().st_size > 500)
    if len(shots) != 2 * len(pages.SCREENS):
        yield f"screenshots: {shots}"


def missing_browser(folder):
    """Skipped, unless it has to be there."""
    for needed, expected in (("", SKIPPED), ("1", 1)):
        done = subprocess.run(
            [sys.executable, pages.__file__, folder / "page.html"], capture_output=True,
            env=os.environ | {"PATH": str(folder), "AREO_REQUIRE_BROWSER": needed})  # fmt: skip
        if done.returncode != expected or b"chromium" not in done.stdout:
            yield f"without a browser: exits {done.returncode}, expected {expected}"


def run():
    """Number of blind checks."""
    with tempfile.TemporaryDirectory(prefix="areo-pages-") as name:
        folder = Path(name)
        (folder / "shots").mkdir()
        (folder / "x.png").write_bytes(PNG)
        wrong = [w for part in (refused_pages, shown_pages, missing_browser) for w in part(folder)]
    for line in wrong:
        print(line)
    print(f"selftest: {f'{len(wrong)} wrong' if wrong else 'ok'}")
    return len(wrong)
