# SPDX-License-Identifier: GPL-3.0-or-later
"""What sessions say.

A session is a text to read:
  # words             prose
  ## name             a new case begins, in a fresh directory with a fresh notebook; what stands
                      before the first one is a case without a name
  @ from name         first line of a case: it begins in a copy of what another case left, one of
                      this file or the session setup/name.session
  $ areo WORD ...     an invocation, split like shell words (no shell runs); its standard output
                      follows. Blank lines at the end of it only set it apart from what follows
  ! words             a line of standard error
  ?3                  the exit status, where it is not 0
  \\words              a line of standard output that would be taken for one of these, or is blank at
                      the end: without the backslash
  $- areo WORD ...    an invocation whose output nobody looks at; it must exit 0
  $ areo ... <<END    the lines up to END are its standard input. With BYTES for END, \\r, \\xff and the
                      like mean one byte, and a backslash at the very end takes the end of line away
  $ cat > x <<END     makes the file x
  $ cat x             prints the file x
In a document (.md) a block of code is a case if <!-- session --> stands above it; behind `session:`
may follow, with a comma between them,
  from name           it begins from this set-up
  exits 3             the exit status of the last command
  error               what the last command prints is its standard error, its output is not looked at
  file x              the block is the file x, which all cases below it in the document have
A command with another one right below it is shown without its output, which nobody looks at; so is
one that the comment itself holds, a line each, before a line --> of its own.
"""

import re
import shlex
from dataclasses import dataclass, field

COMMAND = re.compile(r"\$(-?) (.*?)(?: <<(\w+))?$")
MARKED = re.compile(r"[$!?#@\\]")
DIRECTIVE = re.compile(r"<!-- session(?:: (.*?))?( -->)?$")


class Malformed(Exception):
    """The session cannot be read, or a case cannot go on."""


@dataclass
class Step:
    line: int  # of the command, from 0
    words: list
    quiet: bool
    given: bytes
    begin: int = 0  # lines of what is expected: [begin, end)
    end: int = 0
    out: str = ""
    err: str = ""
    status: int = 0
    shown: tuple = ("out", "err")


@dataclass
class Case:
    name: str
    base: str = ""
    steps: list = field(default_factory=list)
    block: bool = False  # of a document


def read(path):
    try:
        return path.read_bytes().decode(errors="surrogateescape").split("\n")
    except OSError as e:
        raise Malformed(f"cannot be read: {e.strerror}") from e


def given_bytes(lines, word):
    text = "".join(l + "\n" for l in lines).encode(errors="surrogateescape")
    if word != "BYTES":
        return text
    text = re.sub(rb"\\\n$", b"", text)
    return text.decode("unicode_escape").encode("latin-1")


def command(lines, at, end):
    """(step without what it prints, line after it)"""
    m = COMMAND.match(lines[at])
    words = shlex.split(m[2]) if m else []
    if not words or words[0] not in ("areo", "cat"):
        raise Malformed(f"line {at + 1}: a command is `areo` or `cat`")
    after, given = at + 1, b""
    if m[3]:
        try:
            close = lines.index(m[3], after, end)
        except ValueError:
            raise Malformed(f"line {at + 1}: no line {m[3]} ends the text") from None
        given, after = given_bytes(lines[after:close], m[3]), close + 1
    return Step(at, words, bool(m[1]), given, after, after), after


def expect(step, lines):
    for line in lines:
        if m := re.fullmatch(r"\?(\d+)", line):
            step.status = int(m[1])
        elif m := re.fullmatch(r"! ?(.*)", line, re.S):
            step.err += m[1] + "\n"
        else:
            step.out += line.removeprefix("\\") + "\n"


def expected(step):
    """What is written under a command."""
    out, err = (text.split("\n")[:-1] for text in (step.out, step.err))
    lines = ["\\" + l if MARKED.match(l) else l for l in out]
    if lines and not lines[-1]:
        lines[-1] = "\\"
    lines += [f"! {l}" if l else "!" for l in err]
    return lines + ([f"?{step.status}"] if step.status else [])


def session(lines):
    cases = [Case("")]
    at = 0
    while at < len(lines):
        line = lines[at]
        case = cases[-1]
        if line.startswith("## "):
            cases.append(Case(line[3:]))
        elif line.startswith("@ from ") and not case.base and not case.steps:
            case.base = line[7:]
        elif line.startswith("$"):
            step, at = command(lines, at, len(lines))
            while at < len(lines) and not re.match(r"[$#@]", lines[at]):
                at += 1
            step.end = at
            while step.end > step.begin and not lines[step.end - 1]:
                step.end -= 1
            expect(step, lines[step.begin : step.end])
            case.steps.append(step)
            continue
        elif line and not line.startswith("#"):
            raise Malformed(f"line {at + 1}: belongs to no command")
        at += 1
    return [case for case in cases if case.steps or case.name or case.base]


def block(lines, begin, end, told):
    """The case in the lines [begin, end) of a document."""
    case = Case(f"line {begin}", told.get("from", ""), block=True)
    at = begin
    while at < end:
        step, at = command(lines, at, end)
        while at < end and not lines[at].startswith("$ "):
            at += 1
        step.end = at
        step.quiet = at == step.begin and at < end
        step.out = "".join(l + "\n" for l in lines[step.begin : step.end])
        case.steps.append(step)
    last = case.steps[-1]
    last.status = int(told.get("exits", 0))
    if "error" in told:
        last.shown, last.out, last.err = ("err",), "", last.out
    return case


def document(lines):
    cases, files = [], []
    for at, line in enumerate(lines):
        m = DIRECTIVE.match(line)
        if line.startswith("<!-- session") and not m:
            raise Malformed(f"line {at + 1}: not understood")
        if m:
            told = dict((part.split(" ", 1) + [""])[:2] for part in (m[1] or "").split(", ") if part)
            if not set(told) <= {"from", "exits", "error", "file"}:
                raise Malformed(f"line {at + 1}: from, exits, error or file")
            close = at if m[2] else lines.index("-->", at)
            begin = close + 2
            if not lines[close + 1].startswith("```") or lines[begin] == "```":
                raise Malformed(f"line {at + 1}: no block of code follows")
            end = lines.index("```", begin)
            if "file" in told:
                given = given_bytes(lines[begin:end], "END")
                files.append(Step(at, ["cat", ">", told["file"]], True, given))
                continue
            first = [command(lines, n, close)[0] for n in range(at + 1, close)]
            for step in first:
                step.quiet = True
            cases.append(block(lines, begin, end, told))
            cases[-1].steps[:0] = files + first
    return cases


def parse(path):
    lines = read(path)
    cases = document(lines) if path.suffix == ".md" else session(lines)
    if not any(not step.quiet for case in cases for step in case.steps):
        raise Malformed("nothing is run whose output is looked at")
    for case in cases:
        if not case.steps:
            raise Malformed(f"case {case.name}: no command")
    return lines, cases
