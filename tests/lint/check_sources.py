#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every citation has an entry in tables/sources.bib, and every entry is cited.

Looked at: `[key]` and `[key, key]` in C++ comments; string literals that hold such a citation; the
last string of a `Range` initialiser; `[key]` in the text of documents (not in code blocks); the
`# source:` line that each tables/*.csv must have, and the cells of a column named `source`.
"""

import csv
import re

import lint

BIB = "tables/sources.bib"
KEY = r"[a-z][a-z0-9-]{2,}"
CITATION = re.compile(rf"(?<![\w\])])\[({KEY}(?:, ?{KEY})*)\](?![(\[:\w])")
RANGE = re.compile(r"\bRange\b[^;{}=]*=?\s*\{([^{};]*)\}")
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
ENTRY = re.compile(r"^@(\w+)\s*\{\s*([^,\s]*)\s*,", re.M)


def cited(text):
    for m in CITATION.finditer(text):
        yield from re.split(r", ?", m[1])


def prose(markdown):
    """(line number, text) outside code blocks, comments and inline code."""
    fence = None
    for number, line in enumerate(markdown.splitlines(), 1):
        m = re.match(r"\s*(```+|~~~+)", line)
        if m:
            fence = None if fence and m[1].startswith(fence) else fence or m[1]
        elif not fence:
            yield number, re.sub(r"`[^`]*`|<!--.*?-->", "", line)


def cpp_citations(source):
    """(line, key, sure): not sure means that it may be another word of the program."""
    for number, comment in lint.comments(source):
        for key in cited(comment):
            yield number, key, True
    code = lint.strip_comments(source)
    for m in RANGE.finditer(code):
        # Quantity, unit, source and, where there is one, a hint in words behind it.
        strings = [s for s in STRING.findall(m[1]) if s]
        if strings:
            key = strings[-2] if " " in strings[-1] and len(strings) > 2 else strings[-1]
            yield lint.line_of(code, m.start()), key, True
    for m in STRING.finditer(code):
        line = lint.line_of(code, m.start())
        for key in cited(m[1]):
            yield line, key, any(c.isdigit() for c in key)
        if re.fullmatch(KEY, m[1]):
            yield line, m[1], False


def table_citations(path, found, name):
    header = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line.startswith("#"):
            break
        m = re.match(r"#\s*source:\s*(.*)", line, re.I)
        if m:
            keys = [k for k in cited(m[1])]
            if not keys:  # "# source: key, key; words"
                keys = [k for k in re.split(r"[,;\s]+", m[1]) if k][:1]
            header += [(number, k, True) for k in keys]
    if not header:
        found.append(f"{name}:1: no `# source:` line with a key")
    yield from header
    with path.open(encoding="utf-8", newline="") as f:
        lines = [(n, l) for n, l in enumerate(f, 1) if l.strip() and not l.startswith("#")]
    rows = csv.reader(l for _, l in lines)
    columns = next(rows, [])
    if "source" in columns:
        at = columns.index("source")
        for row in rows:
            if len(row) > at and row[at]:
                for key in re.split(r"[,;]\s*", row[at]):
                    yield lines[rows.line_num - 1][0], key.strip("[] "), True


def check(root):
    if not (root / BIB).is_file():
        return [f"{BIB}: missing"]
    found = []
    bib = lint.text(root / BIB)
    entries = {}
    for m in ENTRY.finditer(bib):
        where = f"{BIB}:{lint.line_of(bib, m.start())}"
        if not re.fullmatch(KEY, m[2]):
            found.append(f"{where}: key {m[2]!r} does not match {KEY}")
        if m[2] in entries:
            found.append(f"{where}: second entry {m[2]}")
        entries[m[2]] = where
    if not entries:
        found.append(f"{BIB}: no entry")

    uses = []
    for base in ("include", "src", "tests"):
        for path in lint.walk(root / base, ".hpp", ".cpp"):
            uses += [(path, *c) for c in cpp_citations(lint.text(path))]
    for path in lint.walk(root, ".md"):
        uses += [(path, n, key, True) for n, line in prose(lint.text(path)) for key in cited(line)]
    for path in lint.walk(root / "tables", ".csv"):
        name = path.relative_to(root).as_posix()
        uses += [(path, *c) for c in table_citations(path, found, name)]

    for path, line, key, sure in uses:
        if sure and key not in entries:
            found.append(f"{path.relative_to(root).as_posix()}:{line}: [{key}] is not in {BIB}")
    used = {key for _, _, key, _ in uses}
    found += [f"{where}: {key} is cited nowhere" for key, where in entries.items() if key not in used]
    return found


GOOD = {
    BIB: "@article{abc1999,\n title = {A}\n}\n@misc{isa,\n}\n@misc{x-2,\n}\n@misc{def2,\n}\n@misc{ghi-3,\n}\n",
    "include/areo/core/a.hpp": "/// @source [abc1999, isa] eq. 1, over lo .. hi and c[i][k-1]\n"
    'inline constexpr Range r{"density", "kg", 0, 1, "x-2"};\n',
    "src/cli/x.cpp": 'const char* usage = "areo [options]";  // a[idx]\n',
    "docs/a.md": "See [def2] and [this page](a.md); `x[unknown1]`.\n\n```\n[unknown2]\n```\n",
    "tables/t.csv": "# title: T\n# source: [ghi-3] table 1\na,source\n1,isa\n",
}
BAD = {
    "unknown key in a comment": {"src/core/b.cpp": "// as in [nobody1900]\n"},
    "unknown second key": {"src/core/b.cpp": "// as in [isa, nobody1900]\n"},
    "unknown key in a Range": {"src/core/b.cpp": 'Range r{"a", "b", 0, 1, "nobody"};\n'},
    "unknown key in a message": {"src/core/b.cpp": 'auto s = "by [nobody1900]";\n'},
    "unknown key in a document": {"docs/b.md": "By [nobody1900].\n"},
    "unknown key of a table": {"tables/u.csv": "# source: nobody1900\na\n1\n"},
    "unknown key in a row": {"tables/u.csv": "# source: isa\na,source\n1,nobody1900\n"},
    "table without a source": {"tables/u.csv": "# title: U\na\n1\n"},
    "unused entry": {"tables/t.csv": "# source: isa\na\n1\n"},
    "double entry": {BIB: GOOD[BIB] + "@misc{isa,\n}\n"},
    "bad key": {BIB: GOOD[BIB] + "@misc{Isa,\n}\n"},
    "missing file": {BIB: None},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
