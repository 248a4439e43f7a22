#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every source file names the licence: its first line, or the one after `#!`, is the SPDX line.

docs/examples is left out: examples are there to be copied, and quoted in documents.
"""

import lint

SPDX = "SPDX-License-Identifier: GPL-3.0-or-later"
MARK = {".cpp": "//", ".hpp": "//", ".js": "//", ".py": "#", ".sh": "#", ".cmake": "#"}
LEFT_OUT = "docs/examples/"
LICENCE = "docs/LICENSE"


def mark_of(path):
    """How a comment begins in the file, or None where no licence is asked for."""
    return "#" if path.name == "CMakeLists.txt" else MARK.get(path.suffix)


def wanted_line(lines):
    """Number of the line, from 0, that has to be the SPDX line."""
    return 1 if lines and lines[0].startswith("#!") else 0


def check(root):
    found = []
    licence = root / LICENCE
    if not licence.is_file() or SPDX not in lint.text(licence):
        found.append(f"{LICENCE}: missing, or without `{SPDX}`")
    for path in lint.walk(root):
        name = path.relative_to(root).as_posix()
        mark = mark_of(path)
        if not mark or name.startswith(LEFT_OUT):
            continue
        lines = lint.text(path).split("\n")
        at = wanted_line(lines)
        if lines[at : at + 1] != [f"{mark} {SPDX}"]:
            found.append(f"{name}:{at + 1}: not `{mark} {SPDX}`")
    return found


GOOD = {
    LICENCE: f"Free.\n\n    {SPDX}\n",
    "CMakeLists.txt": f"# {SPDX}\nproject(a)\n",
    "src/a.cpp": f"// {SPDX}\n// Words.\n",
    "include/a.hpp": f"// {SPDX}\n#pragma once\n",
    "tests/a.py": f"#!/usr/bin/env python3\n# {SPDX}\n",
    "src/cmake/a.cmake": f"# {SPDX}\n",
    "docs/examples/b.cpp": "int main() {}\n",
    "docs/a.md": "words\n",
}
BAD = {
    "no licence": {LICENCE: None},
    "licence of another name": {LICENCE: "Free.\n"},
    "no line in a source": {"src/a.cpp": "// Words.\n"},
    "empty source": {"src/a.cpp": ""},
    "another licence": {"include/a.hpp": "// SPDX-License-Identifier: GPL-2.0-only\n#pragma once\n"},
    "further down": {"src/a.cpp": f"// Words.\n// {SPDX}\n"},
    "mark of another language": {"src/a.cpp": f"# {SPDX}\n"},
    "no line after #!": {"tests/a.py": "#!/usr/bin/env python3\nimport os\n"},
    "before #!": {"tests/a.py": f"# {SPDX}\n#!/bin/false\n", "tests/b.py": "import os\n"},
    "no line in a CMake file": {"src/cmake/a.cmake": "set(a)\n"},
    "no line in CMakeLists.txt": {"CMakeLists.txt": "project(a)\n"},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
