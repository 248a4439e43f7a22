#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Which room may include which: docs/reference/layers.txt against the #include lines.

Also keeps each outside library behind its wall.
"""

import re

import lint

TABLE = "docs/reference/layers.txt"
INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.M)
# Includes that start like this are allowed only in files whose path matches.
WALLS = {
    "CLI/": r"src/cli/(app|cmd_budget|command_line|help|usage)\.cpp$",
    "sqlite3.h": r"src/notebook/",
    "gsl/": r"src/(numeric|uncertainty)/",
    "boost/": r"include/areo/core/units\.hpp$",
    # Linked PRIVATE: users of an installed areo need not have them.
    "fmt/": r"src/|include/areo/front/fmt\.hpp$",
    "nlohmann/": r"src/text/json_dump\.hpp$",
}


def read_table(path):
    table = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            room, _, allowed = line.partition(":")
            table[room.strip()] = set(allowed.split()) | {room.strip()}
    return table


def check(root):
    table_path = root / TABLE
    if not table_path.is_file():
        return [f"{TABLE}: missing"]
    table = read_table(table_path)
    found = []
    for room, allowed in table.items():
        found += [f"{TABLE}: {room} names the unknown room {r}" for r in sorted(allowed - set(table))]
        if room != "cli" and "cli" in allowed:
            found.append(f"{TABLE}: {room} may not include cli")
        if not any(
            True
            for base in ("include/areo", "src")
            for _ in lint.walk(root / base / room, ".hpp", ".cpp")
        ):
            found.append(f"{TABLE}: room {room} has no file, nothing was checked")
    for base in ("include/areo", "src"):
        for path in lint.walk(root / base, ".hpp", ".cpp", ".h", ".cc", ".in"):
            name = path.relative_to(root).as_posix()
            parts = path.relative_to(root / base).parts
            if name == "include/areo/areo.hpp" or (base == "src" and parts[0] == "cmake"):
                continue  # the umbrella header and CMake's own files belong to no room
            if len(parts) < 2 or parts[0] not in table:
                found.append(f"{name}:1: not in a room of {TABLE}")
                continue
            source = lint.strip_comments(lint.text(path))
            own = f"areo/{parts[0]}/{path.stem}.hpp"
            first = INCLUDE.search(source)
            if path.suffix == ".cpp" and (root / "include" / own).is_file() and (not first or first[2] != own):
                found.append(f"{name}:1: the first include is \"{own}\", so that it compiles alone")
            for m in INCLUDE.finditer(source):
                where = f"{name}:{lint.line_of(source, m.start(1))}"
                found += [f"{where}: {p}" for p in problems(table, parts[0], path, root, name, m[1], m[2])]
    return found


def problems(table, room, path, root, name, bracket, target):
    for prefix, place in WALLS.items():
        if target.startswith(prefix) and not re.match(place, name):
            yield f"<{target}> is allowed in {place} only"
    if bracket == "<":
        if target.startswith("areo/"):
            yield f"write \"{target}\" with quotes"
        return
    if "/" not in target:
        if not (path.parent / target).is_file():
            yield f"\"{target}\" is not beside this file"
        return
    parts = target.removeprefix("areo/").split("/")
    if target == "areo/areo.hpp" or len(parts) < 2:
        yield f"include the header of the room, not \"{target}\""
        return
    if not target.startswith("areo/") and not name.startswith("src/"):
        yield f"a public header may not include the private \"{target}\""
    if parts[0] not in table:
        yield f"\"{target}\": unknown room {parts[0]}"
    elif parts[0] not in table[room]:
        yield f"{room} may not include {parts[0]} ({TABLE})"


GOOD = {
    TABLE: "# words\ncore:\nphysics: core\ncli: core physics\n",
    "include/areo/areo.hpp": '#include "areo/core/a.hpp"\n',
    "include/areo/core/a.hpp": "#pragma once\n",
    "include/areo/core/units.hpp": "#include <boost/units/quantity.hpp>\n",
    "src/physics/b.hpp": "#pragma once\n",
    "src/physics/b.cpp": '// #include "areo/cli/x.hpp"\n#include "areo/core/a.hpp"\n#include "b.hpp"\n',
    "src/cli/app.cpp": '#include <CLI/CLI.hpp>\n#include "areo/core/a.hpp"\n',
}
BAD = {
    "upward include": {"include/areo/core/a.hpp": '#include "areo/physics/b.hpp"\n'},
    "upward private include": {"src/core/a.cpp": '#include "physics/b.hpp"\n'},
    "include of cli": {"src/physics/b.cpp": '#include "cli/parse.hpp"\n'},
    "unknown room included": {"src/physics/b.cpp": '#include "areo/attic/x.hpp"\n'},
    "file in an unknown room": {"src/attic/x.cpp": "\n"},
    "file in no room": {"src/x.cpp": "\n"},
    "empty room": {"src/cli/app.cpp": None},
    "unknown room in the table": {TABLE: "core:\nphysics: core attic\ncli: core physics\n"},
    "missing table": {TABLE: None},
    "CLI11 in physics": {"src/physics/b.cpp": "#include <CLI/CLI.hpp>\n"},
    "SQLite in core": {"src/core/a.cpp": "#include <sqlite3.h>\n"},
    "GSL in physics": {"src/physics/b.cpp": "#  include <gsl/gsl_roots.h>\n"},
    "Boost in physics": {"src/physics/b.cpp": "#include <boost/units/quantity.hpp>\n"},
    "JSON library in wording": {"src/wording/a.cpp": "#include <nlohmann/json.hpp>\n"},
    "fmt in a public header": {"include/areo/core/a.hpp": "#include <fmt/format.h>\n"},
    "own header not first": {"src/core/a.cpp": '#include <string>\n#include "areo/core/a.hpp"\n'},
    "missing neighbour": {"src/physics/b.cpp": '#include "gone.hpp"\n'},
    "umbrella inside": {"src/physics/b.cpp": '#include "areo/areo.hpp"\n'},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
