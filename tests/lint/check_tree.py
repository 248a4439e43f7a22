#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Shape of the tree: top-level entries, sizes, leftovers, and that CMake knows every file."""

import re

import lint

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "include", "docs", "tests", "tables", "build"}
NEEDED = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "include", "docs", "tests", "tables"}
DOCUMENTS = ("README.md", "LICENSE", "citation.cff", "news.md")  # of docs
MAX_HEADER_LINES = 400
MAX_README_LINES = 120
# Put together here, so that this file does not find itself.
LEFTOVER = re.compile("|".join(("TO" + "DO", "FIX" + "ME", r"(?<![\w.}])/" + "(?:home|root)/")))
# A promise that no measurement can make; users must not read it in the program's words.
PROMISE = re.compile(r"\bsafe\b", re.I)
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')


def named_in_cmake(root):
    """(path, CMake file that must name it) of every file that is compiled or installed by name."""
    for path in lint.walk(root / "include", ".hpp"):
        yield path, "CMakeLists.txt"
    for path in lint.walk(root / "src", ".cpp"):
        yield path, "CMakeLists.txt"
    for path in lint.walk(root / "tests", "_test.cpp"):
        yield path, "tests/CMakeLists.txt"


def check(root):
    found = []
    names = {p.name for p in root.iterdir()}
    found += [f"{n}: not an allowed top-level entry" for n in sorted(names - TOP) if n[0] != "."]
    found += [f"{n}: missing" for n in sorted(NEEDED - names)]
    found += [f"docs/{n}: missing" for n in DOCUMENTS if not (root / "docs" / n).is_file()]

    for path in lint.walk(root):
        name = path.relative_to(root).as_posix()
        text = lint.text(path)
        if text is None:
            continue
        for m in LEFTOVER.finditer(text):
            found.append(f"{name}:{lint.line_of(text, m.start())}: {m[0]}")
        lines = text.count("\n")
        if path.suffix == ".hpp" and lines > MAX_HEADER_LINES:
            found.append(f"{name}:1: {lines} lines, split it ({MAX_HEADER_LINES} at most)")
        if name == "README.md" and lines > MAX_README_LINES:
            found.append(f"{name}:1: {lines} lines; {MAX_README_LINES} at most, the rest belongs in docs")
        if name.startswith("src/") and path.suffix in (".cpp", ".hpp"):
            code = lint.strip_comments(text)
            for m in STRING.finditer(code):
                if PROMISE.search(m[1]):
                    found.append(f"{name}:{lint.line_of(code, m.start())}: {m[0]} promises too much")

    for path, cmake in named_in_cmake(root):
        listed = set(re.findall(r"[\w.-]+\.[ch]pp", (root / cmake).read_text(encoding="utf-8"))) \
            if (root / cmake).is_file() else set()
        if path.name not in listed:
            found.append(f"{path.relative_to(root).as_posix()}:1: not named in {cmake}")
    return found


GOOD = {
    "CMakeLists.txt": "areo_room(core HEADERS a.hpp SOURCES a.cpp)\nareo_cli_sources(text.cpp)\n",
    "README.md": "words, also build/home/x and ${dir}/home/\n",
    "DEVELOPERS.md": "words\n",
    ".gitignore": "/build/\n",
    "build/x.txt": "FIX" + "ME\n",
    "include/areo/core/a.hpp": "// l\n" * MAX_HEADER_LINES,
    "src/core/a.cpp": "\n",
    "src/cli/text.cpp": '// never say "safe"\nauto s = "unsafe, as a safety valve";\n',
    **{f"docs/{name}": "words\n" for name in DOCUMENTS},
    "docs/a.md": "words\n",
    "tests/CMakeLists.txt": "areo_test(core a_test.cpp)\n",
    "tests/core/a_test.cpp": "\n",
    "tables/sources.bib": "\n",
}
BAD = {
    "unknown top-level entry": {"Makefile": "\n"},
    "missing README": {"README.md": None},
    "leftover": {"docs/a.md": "TO" + "DO: words\n"},
    "leftover with a path": {"docs/a.md": "see /" + "home/x\n"},
    "long header": {"include/areo/core/a.hpp": "// l\n" * (MAX_HEADER_LINES + 1)},
    "long README": {"README.md": "words\n" * (MAX_README_LINES + 1)},
    "no licence": {"docs/LICENSE": None},
    "promise": {"src/wording/text.cpp": 'auto s = "It is safe to bottle";\n'},
    "header not named": {"include/areo/core/b.hpp": "\n"},
    "source not named": {"src/core/b.cpp": "\n"},
    "test not named": {"tests/core/b_test.cpp": "\n"},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
