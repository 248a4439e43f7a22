# SPDX-License-Identifier: GPL-3.0-or-later
"""Shared by the lints: walking the tree, reporting, and the self-test of a lint.

Every lint is called as `check_x.py [ROOT]`, prints one line a finding and exits 1 if there is any.
`check_x.py --selftest` builds small bad trees in a temporary directory and exits 1 unless the lint
finds something in each of them, and nothing in the good one.
"""

import os
import sys
import tempfile
from pathlib import Path

SKIPPED_DIRS = {".git", "build", "__pycache__", ".cache"}


def walk(root, *suffixes):
    """Files below root, sorted; only those with one of the suffixes, if any are given."""
    for folder, dirs, names in os.walk(root):
        dirs[:] = sorted(d for d in dirs if d not in SKIPPED_DIRS)
        for name in sorted(names):
            if not suffixes or name.endswith(suffixes):
                yield Path(folder) / name


def text(path):
    """Content of a text file, or None of a binary one."""
    data = path.read_bytes()
    return None if b"\0" in data else data.decode("utf-8", errors="replace")


def strip_comments(source):
    """C++ source with comments blanked out, line numbers kept; strings stay."""
    out, i, n = [], 0, len(source)
    while i < n:
        two = source[i : i + 2]
        if two == "//":
            end = source.find("\n", i)
            i = n if end < 0 else end
        elif two == "/*":
            end = source.find("*/", i)
            end = n if end < 0 else end + 2
            out.append("\n" * source.count("\n", i, end))
            i = end
        elif source[i] in "\"'":
            quote, start = source[i], i
            if quote == "'" and i and source[i - 1].isalnum():  # 10'000
                out.append(quote)
                i += 1
                continue
            i += 1
            while i < n and source[i] not in (quote, "\n"):
                i += 2 if source[i] == "\\" else 1
            i += 1
            out.append(source[start:i])
        else:
            out.append(source[i])
            i += 1
    return "".join(out)


def comments(source):
    """(line number, text) of each // comment."""
    for number, line in enumerate(source.splitlines(), 1):
        i, quote = 0, ""
        while i < len(line):
            c = line[i]
            if quote:
                if c == "\\":
                    i += 1
                elif c == quote:
                    quote = ""
            elif c == '"':
                quote = c
            elif line.startswith("//", i):
                yield number, line[i:].lstrip("/<! ")
                break
            i += 1


def line_of(source, position):
    return source.count("\n", 0, position) + 1


def write_tree(root, files):
    for name, content in files.items():
        path = Path(root) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")


def _selftest(check, good, bad):
    failed = False
    for title, change in [("the good tree", {}), *bad.items()]:
        with tempfile.TemporaryDirectory() as tmp:
            files = {**good, **change}
            write_tree(tmp, {k: v for k, v in files.items() if v is not None})
            found = check(Path(tmp))
        if bool(found) != bool(change):
            failed = True
            print(f"selftest: {title}: expected {'a' if change else 'no'} finding, got {found}")
    print(f"selftest: {len(bad)} bad trees {'NOT all ' if failed else ''}told from the good one")
    return 1 if failed else 0


def main(check, good, bad):
    """check(root) returns findings; good is a tree {path: content} without any, and each value of
    bad changes it (None removes a file) so that there is one."""
    if sys.argv[1:] == ["--selftest"]:
        sys.exit(_selftest(check, good, bad))
    root = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parents[2]).resolve()
    found = check(root)
    for line in found:
        print(line)
    print(f"{Path(sys.argv[0]).name}: {len(found)} findings")
    sys.exit(1 if found else 0)
