#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What documents quote is what the files say, and links lead somewhere.

`<!-- file: path -->` before a code block or a table: the block or the table equals the file.
Blocks under `<!-- session -->` are run by tests/sessions/run.py.
Paths count from the root of the sources; links count from the document.

  check_docs.py --fix      copies the files anew into the blocks that quote them
"""

import re
import sys
from pathlib import Path

import lint

DIRECTIVE = re.compile(r"^\s*<!--\s*(file)\s*:\s*(\S*)\s*-->\s*$")
FENCE = re.compile(r"^\s*(```+|~~~+)")
LINK = re.compile(r"\]\(\s*<?([^)\s>]+)>?(?:\s+\"[^\"]*\")?\s*\)|^\[[^\]]+\]:\s+(\S+)")


def slug(heading):
    """The anchor that web viewers give a heading."""
    heading = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", heading.replace("`", ""))
    return re.sub(r"[^\w\- ]", "", heading.strip().lower()).replace(" ", "-")


def split(markdown):
    """Blocks [(line, content, directive)], directives without a block, and prose [(line, text)]."""
    blocks, lost, text, pending = [], [], [], None
    lines = markdown.splitlines()
    i = 0
    while i < len(lines):
        m = FENCE.match(lines[i])
        if m:
            start = i + 1
            i = start
            while i < len(lines) and not lines[i].strip().startswith(m[1]):
                i += 1
            blocks.append((start, lines[start:i], pending))
            pending = None
        elif d := DIRECTIVE.match(lines[i]):
            if pending:
                lost.append(pending[0])
            pending = (i + 1, d[1], d[2])
        elif pending and lines[i].startswith("|"):
            start = i
            while i < len(lines) and lines[i].startswith("|"):
                text.append((i + 1, lines[i]))
                i += 1
            blocks.append((start, lines[start:i], pending))
            pending = None
            continue
        else:
            if lines[i].strip() and pending:
                lost.append(pending[0])
                pending = None
            text.append((i + 1, lines[i]))
        i += 1
    return blocks, lost + ([pending[0]] if pending else []), text


def check_block(root, block, directive):
    _, kind, name = directive
    path = root / name
    if not name or not path.is_file():
        return f"{kind}: {name or '(no path)'} does not exist"
    if block != lint.text(path).rstrip("\n").split("\n"):
        return f"the block differs from {name}"
    return None


def anchors(path):
    _, _, text = split(lint.text(path))
    seen, out = {}, set()
    for _, line in text:
        m = re.match(r"#{1,6}\s+(.*?)\s*#*$", line)
        if m:
            s = slug(m[1])
            out.add(f"{s}-{seen[s]}" if s in seen else s)
            seen[s] = seen.get(s, 0) + 1
        out.update(re.findall(r'<a (?:id|name)="([^"]+)"', line))
    return out


def check_link(root, path, target):
    if re.match(r"[a-z][a-z0-9+.-]*:", target, re.I):
        return None
    name, _, anchor = target.partition("#")
    there = (path.parent / name).resolve() if name else path
    if not there.is_relative_to(root):
        return f"link {target} leaves the sources"
    if not there.exists():
        return f"link {target} leads nowhere"
    if anchor and there.suffix == ".md" and anchor not in anchors(there):
        return f"link {target}: no such heading"
    return None


def check(root):
    root = root.resolve()
    found = []
    if not (root / "README.md").is_file():
        found.append("README.md: missing")
    for path in lint.walk(root, ".md"):
        name = path.relative_to(root).as_posix()
        blocks, lost, text = split(lint.text(path))
        found += [f"{name}:{line}: no code block follows this comment" for line in lost]
        for _, content, directive in blocks:
            if directive and (problem := check_block(root, content, directive)):
                found.append(f"{name}:{directive[0]}: {problem}")
        for line, content in text:
            for m in LINK.finditer(re.sub(r"`[^`]*`", "", content)):
                if problem := check_link(root, path, m[1] or m[2]):
                    found.append(f"{name}:{line}: {problem}")
    return found


def fix(root):
    for path in lint.walk(root, ".md"):
        lines = lint.text(path).split("\n")
        # From the end, so that the line numbers of earlier blocks hold.
        for start, content, directive in reversed(split("\n".join(lines))[0]):
            if not directive or not (root / directive[2]).is_file():
                continue
            quoted = lint.text(root / directive[2]).rstrip("\n").split("\n")
            lines[start : start + len(content)] = quoted
        path.write_text("\n".join(lines), encoding="utf-8")


README = """# Top

## A `b` (c)

See [there](docs/a.md#some-words), [here](#a-b-c) and [away](https://example.org/x).

<!-- file: docs/x.cpp -->
```cpp
int main() {}
```

<!-- file: docs/t.md -->
| a | b |
|---|---|
| 1 | 2 |

Words.
"""
GOOD = {
    "README.md": README,
    "docs/a.md": "# Some words\n\n[up](../README.md)\n",
    "docs/t.md": "| a | b |\n|---|---|\n| 1 | 2 |\n",
    "docs/x.cpp": "int main() {}\n",
}
BAD = {
    "file differs": {"docs/x.cpp": "int main() { }\n"},
    "table differs": {"docs/t.md": "| a | b |\n|---|---|\n| 1 | 3 |\n"},
    "table longer": {"docs/t.md": "| a | b |\n|---|---|\n"},
    "no table": {"docs/b.md": "<!-- file: docs/t.md -->\nwords\n\n| a | b |\n"},
    "file missing": {"docs/x.cpp": None},
    "no path": {"docs/b.md": "<!-- file: -->\n```\nx\n```\n"},
    "no block": {"docs/b.md": "<!-- file: docs/x.cpp -->\nwords\n"},
    "dead link": {"docs/b.md": "[x](gone.md)\n"},
    "dead reference": {"docs/b.md": "[x]: gone.md\n"},
    "dead anchor": {"docs/b.md": "[x](a.md#gone)\n"},
    "link out": {"docs/b.md": "[x](../../etc)\n"},
    "no README": {"README.md": None, "docs/a.md": "words\n"},
}

if __name__ == "__main__":
    if sys.argv[1:] == ["--fix"]:
        fix(Path(__file__).resolve().parents[2])
        sys.argv.pop()
    lint.main(check, GOOD, BAD)
