#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The house keeps its shape: how long a file and how large a room may be, and what belongs to the
command line alone."""

import collections
import re

import lint

MOST_LINES_OF_A_FILE = 400
MOST_LINES_OF_CLI = 6000
LARGEST_SHARE = 1 / 5  # of the code, for any room
# What only the command line knows: its session, its errors, the screen.
OF_CLI = re.compile(
    r"\b(UsageError|Session)\b|\bstd::(cout|cerr|puts|putchar)\b|\bprintf\(|\bfmt::print\(|\b(stdout|stderr)\b"
)
# A child process gets its output by number; nothing is printed.
MAY_NAME_STREAMS = r"src/publish/run_program\.cpp$"


def sources(root):
    for base in ("include/areo", "src"):
        for path in lint.walk(root / base, ".hpp", ".cpp"):
            parts = path.relative_to(root / base).parts
            yield path, path.relative_to(root).as_posix(), parts[0] if len(parts) > 1 else ""


def check(root):
    found = []
    rooms = collections.Counter()
    for path, name, room in sources(root):
        text = lint.text(path)
        lines = text.count("\n")
        rooms[room] += lines
        if lines > MOST_LINES_OF_A_FILE:
            found.append(f"{name}:{lines}: longer than {MOST_LINES_OF_A_FILE} lines: two ideas?")
        if room == "cli" or re.match(MAY_NAME_STREAMS, name):
            continue
        code = lint.strip_comments(text)
        found += [
            f"{name}:{lint.line_of(code, m.start())}: {m[0]} belongs to cli"
            for m in OF_CLI.finditer(code)
        ]
    whole = sum(rooms.values())
    for room, lines in sorted(rooms.items()):
        if lines > LARGEST_SHARE * whole:
            found.append(f"{room}: {lines} of {whole} lines, more than a fifth")
    if rooms["cli"] > MOST_LINES_OF_CLI:
        found.append(f"cli: {rooms['cli']} lines, more than {MOST_LINES_OF_CLI}: what is it doing there?")
    return found


SHORT = "int a();\n"
GOOD = {f"src/{room}/a.cpp": SHORT for room in ("core", "physics", "text", "wording", "paper", "cli")}
GOOD["src/cli/a.cpp"] = "struct Session {};\n"
GOOD["src/core/a.cpp"] = "// std::cout is for cli\n"
BAD = {
    "long file": {"src/core/a.cpp": SHORT * 401},
    "large room": {"src/core/a.cpp": SHORT * 100, "src/core/b.cpp": SHORT},
    "large command line": {
        **{f"src/cli/{i}.cpp": SHORT * 400 for i in range(16)},
        **{f"src/{r}/x{i}.cpp": SHORT * 400 for r in ("core", "text", "paper", "wording") for i in range(16)},
    },
    "session outside": {"src/text/a.cpp": "struct Session;\n"},
    "screen outside": {"src/text/a.cpp": "void f() { std::cout << 1; }\n"},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
