#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""JSON is built as a value and becomes text once.

No string of the sources holds a piece of a JSON object, out of which text could be joined; only
text::dump() writes, and only what comes from outside is parsed. What a hint tells people to write
may be shown: it begins with "write {".
"""

import re

import lint

TOKEN = re.compile(
    r"//[^\n]*|/\*.*?\*/"
    r'|R"(?P<mark>[^()\\\s]{0,16})\((?P<raw>.*?)\)(?P=mark)"'
    r'|"(?P<plain>(?:[^"\\\n]|\\.)*)"'
    r"|(?<![0-9A-Fa-f])'(?:[^'\\\n]|\\.)+'",
    re.S,
)
# {"key, or key": with or without a brace before it; fmt doubles its braces.
PIECE = re.compile(r'\{\s*"|"\s*:')
EXAMPLE = re.compile(r'write \{"')
# Calls that belong to one place each.
PLACES = {
    r"\.\s*dump\(": ("a value becomes text by text::dump()", r"src/text/json_dump\.cpp$"),
    r"\bJson::(parse|accept)\(|\bjson::(parse|accept)\(": (
        "what areo wrote is not parsed again; what comes from outside is parsed in one place",
        r"src/stream/rows\.cpp$",
    ),
}


def literals(source):
    """(position, text) of each string."""
    for m in TOKEN.finditer(source):
        if m["raw"] is not None:
            yield m.start(), m["raw"]
        elif m["plain"] is not None:
            yield m.start(), re.sub(r"\\(.)", r"\1", m["plain"])


def without_texts(source):
    """The code alone, as long as before."""
    return TOKEN.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), source)


def check(root):
    found = []
    for base in ("include", "src"):
        for path in lint.walk(root / base, ".hpp", ".cpp"):
            name = path.relative_to(root).as_posix()
            source = lint.text(path)
            for position, text in literals(source):
                if PIECE.search(text) and not EXAMPLE.match(text):
                    found.append(
                        f"{name}:{lint.line_of(source, position)}: a piece of JSON as text: "
                        "build a text::Json and dump() it"
                    )
            code = without_texts(source)
            for call, (why, place) in PLACES.items():
                if re.search(place, name):
                    continue
                found += [
                    f"{name}:{lint.line_of(code, m.start())}: {why}" for m in re.finditer(call, code)
                ]
    return found


GOOD = {
    "src/text/json_dump.cpp": "std::string dump(const Json& j) { return j.dump(-1); }\n",
    "src/stream/rows.cpp": "auto j = text::Json::parse(line);\n"
    'auto hint = R"(write {"reading": "1.020"})";\n',
    "src/wording/a.cpp": '// {"a": 1} in a comment\n/* {"b": 2} */\n'
    'auto s = text::dump({{"rows", rows}, {"of", "a \\"b\\""}});\n'
    "const char mark = '\"'; const int n = 10'000;\n"
    'auto html = fmt::format("<td class=\\"{}\\">{{}}", c);\n',
    "include/areo/wording/a.hpp": '/// {"rows", "file"}\nstd::string rows_json();\n',
}
BAD = {
    "joined by a format": {"src/cli/b.cpp": 'auto s = fmt::format(R"({{"rows":{}}})", n);\n'},
    "joined without raw strings": {"src/cli/b.cpp": 'auto s = "{\\"rows\\":" + n + "}";\n'},
    "a member alone": {"src/wording/b.cpp": 'out += fmt::format(R"(,"line":{})", line);\n'},
    "a key that is filled in": {"src/wording/b.cpp": 'out += fmt::format("\\"{}\\": {}", key, value);\n'},
    "with spaces": {"src/wording/b.cpp": 'auto s = R"({ "rows" : 1})";\n'},
    "in a header": {"include/areo/wording/b.hpp": 'constexpr const char* none = "{\\"pairs\\":0}";\n'},
    "behind a character": {"src/cli/b.cpp": "auto c = '\"'; auto s = \"{\\\"rows\\\":1}\";\n"},
    "an example that is written": {"src/cli/b.cpp": 'line(R"({"reading": "1.020"})");\n'},
    "another dump": {"src/wording/b.cpp": "return j.dump();\n"},
    "parsed again": {"src/wording/b.cpp": "head = text::Json::parse(drift_json(d));\n"},
}

if __name__ == "__main__":
    lint.main(check, GOOD, BAD)
