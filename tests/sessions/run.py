#!/usr/bin/env python3
"""Runs sessions with the program and compares what it prints byte for byte.

  run.py --program PATH [--update] [--keep FOLDER] [FILE | FOLDER ...]
                                                           default: all sessions beside this file
  run.py --selftest

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

The path of the directory is printed as TMP, version and digest of the tables as VERSION and DIGEST,
the style of a page as STYLE: they change without a result that does. --update writes what is printed
into the sessions instead of comparing it. --keep leaves in FOLDER what set-ups left, for further runs
with the same program, and takes it from there; a set-up that is run as a session is put there anew.
"""

import argparse
import contextlib
import difflib
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

HERE = Path(__file__).resolve().parent
TIMEOUT_S = 120
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


def environment(folder):
    # LD_PRELOAD: to run all of them with a clock that is ahead.
    kept = {k: v for k, v in os.environ.items()
            if k in ("PATH", "LD_PRELOAD") or k.endswith("SAN_OPTIONS")}  # fmt: skip
    return kept | {
        "HOME": folder,
        "XDG_DATA_HOME": f"{folder}/data",
        "AREO_NOTEBOOK": f"{folder}/notebook.db",
        "LC_ALL": "C.UTF-8",
        "NO_COLOR": "1",
        "TZ": "UTC",
    }


def masked(out, folder):
    """What says nothing about the case, by its name; how pages look is for tests/browser."""
    out = out.replace(folder.encode(), b"TMP")
    out = re.sub(rb"(?s)<style>.*?@media print.*?</style>", b"<style>STYLE</style>", out)
    out = re.sub(rb"areo \S+ \(tables [0-9a-f]+\)", b"areo VERSION (tables DIGEST)", out)
    return re.sub(rb'"areo":"[^"]+","tables":"[0-9a-f]+"', b'"areo":"VERSION","tables":"DIGEST"', out)


def printed(data, folder):
    text = masked(data, folder).decode(errors="surrogateescape")
    if text and not text.endswith("\n"):
        text += "\n\\ no end of line\n"
    return text


def cat(words, given, folder):
    """(status, output)"""
    if len(words) == 3 and words[1] == ">":
        path = Path(folder, words[2])
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(given)
        return 0, b""
    if len(words) != 2:
        raise Malformed("`cat` has one file")
    try:
        return 0, Path(folder, words[1]).read_bytes()
    except OSError as e:
        raise Malformed(f"{words[1]}: {e.strerror}") from e


def play(program, step, folder):
    """(status, standard output, standard error)"""
    if step.words[0] == "cat":
        status, out = cat(step.words, step.given, folder)
        return status, printed(out, folder), ""
    done = subprocess.run(
        [program, *step.words[1:]],
        cwd=folder,
        env=environment(folder),
        input=step.given,
        capture_output=True,
        timeout=TIMEOUT_S,
    )
    return done.returncode, printed(done.stdout, folder), printed(done.stderr, folder)


def difference(title, want, got):
    unseen = r"[\x00-\x09\x0b-\x1f\x7f\udc80-\udcff]"
    lines = [re.sub(unseen, lambda m: ascii(m[0])[1:-1], text).splitlines(keepends=True)
             for text in (want, got)]  # fmt: skip
    return "".join(difflib.unified_diff(*lines, fromfile=f"{title} expected", tofile="printed", n=2))


class Setups:
    """What the set-ups leave; each is played once."""

    def __init__(self, program, folder, keep=None, stored=HERE / "setup"):
        self.program, self.folder, self.keep, self.stored = program, Path(folder), keep, stored
        self.left = {}

    def played(self, name):
        """Its output is looked at when it is run as a session."""
        if name not in self.left:
            path = self.stored / f"{name}.session"
            if not path.is_file():
                raise Malformed(f"no case before it and no set-up is called {name}")
            if self.keep and (self.keep / name).is_dir():
                self.left[name] = self.keep / name
                return self.left[name]
            self.left[name] = None
            _, cases = parse(path)
            if len(cases) != 1:
                raise Malformed(f"the set-up {name} is not one case")
            made = self.folder / name
            self.begin(cases[0].base, made)
            for step in cases[0].steps:
                status, _, err = play(self.program, step, str(made))
                if status != 0:
                    raise Malformed(f"the set-up {name} fails: {shlex.join(step.words)}\n{err}")
            self.left[name] = made
        if not self.left[name]:
            raise Malformed(f"the set-up {name} begins from itself")
        return self.left[name]

    def begin(self, name, made):
        if name:
            shutil.copytree(self.played(name), made, dirs_exist_ok=True)
        else:
            made.mkdir(exist_ok=True)

    def put(self, name, made):
        """What the set-up left, just run as a session."""
        to = (self.keep or self.folder) / name
        if not to.is_dir() or self.keep:
            fresh = Path(tempfile.mkdtemp(dir=to.parent))
            shutil.copytree(made, fresh, dirs_exist_ok=True)
            shutil.rmtree(to, ignore_errors=True)
            fresh.rename(to)
        self.left[name] = to


class Run:
    """The cases of a file; what a case leaves that others begin with is kept until the file is done."""

    def __init__(self, setups, stack):
        self.setups, self.stack = setups, stack
        self.left = {}
        self.problems = []

    def folder(self, case):
        # The length of its path is that of a usual one: messages are broken into lines with it.
        made = self.stack.enter_context(tempfile.TemporaryDirectory(prefix="areo-session"))
        made = os.path.realpath(made)
        if case.base in self.left:
            shutil.copytree(self.left[case.base], made, dirs_exist_ok=True)
        else:
            self.setups.begin(case.base, Path(made))
        return made

    def run(self, case, path):
        """Plays all steps; says what differs; leaves in them what was printed."""
        folder = self.folder(case)
        for step in case.steps:
            status, out, err = play(self.setups.program, step, folder)
            where = f"{path.parent.name}/{path.name}:{step.line + 1}: `{shlex.join(step.words)}`"
            if step.quiet:
                if status != 0:
                    raise Malformed(f"{where} exits {status}, expected 0\n{err}")
                continue
            if status != step.status:
                self.problems.append(f"{where} exits {status}, expected {step.status}\n")
            for name, got in (("out", out), ("err", err)):
                if name in step.shown and (want := getattr(step, name)) != got:
                    self.problems.append(f"{where}\n{difference(f'standard {name}', want, got)}")
            step.status, step.out, step.err = status, out, err
        if case.name:
            self.left[case.name] = folder
        if path.parent == self.setups.stored:
            self.setups.put(path.stem, folder)


def rewritten(lines, cases):
    lines = list(lines)
    for case in reversed(cases):
        for step in reversed(case.steps):
            if not step.quiet:
                new = expected(step)
                if case.block:  # as it is printed, without marks
                    new = "".join(getattr(step, name) for name in step.shown).split("\n")[:-1]
                lines[step.begin : step.end] = new
    return "\n".join(lines)


def run_file(setups, path, write=False):
    """(number of commands looked at, problems)"""
    with contextlib.ExitStack() as stack:
        run = Run(setups, stack)
        cases = []
        try:
            lines, cases = parse(path)
            for case in cases:
                run.run(case, path)
            if write and run.problems:
                text = rewritten(lines, cases)
                path.write_bytes(text.encode(errors="surrogateescape"))
                return len(cases), []
        except (Malformed, ValueError, subprocess.TimeoutExpired) as e:
            run.problems.append(f"{path.parent.name}/{path.name}: {e}")
        return sum(not s.quiet for c in cases for s in c.steps), run.problems


PROGRAM = """#!/bin/sh
case $1 in
  add) echo "$2" >> notebook.db ;;
  show) cat notebook.db ;;
  fail) echo no >&2; exit 3 ;;
  read) cat; echo "read:$2:$NO_COLOR:$PWD" ;;
  odd) printf '# x\\n\\\\y\\n$ z\\n\\n' ;;
  nan) echo "${2:-nan}" ;;
  bare) printf x ;;
esac
"""
GOOD = {
    "x.session": r"""# Words.

## one
@ from stem
$- areo add b
$ areo show
a
b

# More words.
$ areo read 'a b' <<END
in
END
in
read:a b:1:TMP
$ areo fail
! no
?3

## two
@ from one
$ areo add c
$ areo show
a
b
c
$ areo odd
\# x
\\y
\$ z
\
$ areo nan
nan
$ areo bare
x
\\ no end of line
$ cat > f <<BYTES
1\r
2\xff\
BYTES
$ cat > g <<END
g
END
$ cat g
g
""",
    "setup/stem.session": "$ areo add a\n",
    "x.md": """Words.

<!-- session: from stem
$ areo add b
-->
```console
$ areo add c
$ areo show
a
b
c
```

<!-- session: file f -->
```text
x
```

<!-- session -->
```console
$ cat f
x
```

<!-- session: error, exits 3 -->
```console
$ areo fail
no
```
""",
}
BAD = {  # file, words in it, words instead
    "other output": ("x.session", "\na\nb\n\n# More", "\na\nB\n\n# More"),
    "a line less": ("x.session", "a\nb\nc\n", "a\nb\n"),
    "a line more": ("x.session", "a\nb\nc\n", "a\nb\nc\nd\n"),
    "other number": ("x.session", "nan\nnan\n", "nan 1\nnan\n"),
    "nan instead": ("x.session", "nan\nnan\n", "nan\n1\n"),
    "nan in other letters": ("x.session", "nan\nnan\n", "nan\nNaN\n"),
    "nothing expected": ("x.session", "nan\nnan\n", "nan\n"),
    "blank line at the end": ("x.session", "\\$ z\n\\\n", "\\$ z\n"),
    "end of line": ("x.session", "x\n\\\\ no end of line\n", "x\n"),
    "other standard input": ("x.session", "<<END\nin\n", "<<END\nin \n"),
    "other exit status": ("x.session", "?3", "?4"),
    "no exit status": ("x.session", "! no\n?3\n", "! no\n"),
    "exit status of what succeeds": ("x.session", "nan\nnan\n", "nan\nnan\n?3\n"),
    "other error": ("x.session", "! no\n", "! yes\n"),
    "error missing": ("x.session", "! no\n", ""),
    "error too many": ("x.session", "nan\nnan\n", "nan\nnan\n! words\n"),
    "error as output": ("x.session", "! no\n", "no\n"),
    "failing first step": ("x.session", "$- areo add b", "$- areo fail"),
    "other file": ("x.session", "$ cat g\ng\n", "$ cat g\nG\n"),
    "missing file": ("x.session", "$ cat g\n", "$ cat h\n"),
    "empty file": ("x.session", "<<END\ng\n", "<<END\n"),
    "not a command": ("x.session", "$ areo show\na\nb\nc", "$ show\na\nb\nc"),
    "endless input": ("x.session", "BYTES\n$ cat > g", "BYTE\n$ cat > g"),
    "words of no command": ("x.session", "## two\n", "## two\nwords\n"),
    "unknown set-up": ("x.session", "@ from stem", "@ from leaf"),
    "unknown case": ("x.session", "@ from one", "@ from none"),
    "failing set-up": ("setup/stem.session", "add a", "fail"),
    "other set-up": ("setup/stem.session", "add a", "add A"),
    "set-up from itself": ("setup/stem.session", "$ areo add a", "@ from stem\n$ areo add a"),
    "empty session": ("x.session", GOOD["x.session"], ""),
    "session of words": ("x.session", GOOD["x.session"], "# Words.\n"),
    "case without a command": ("x.session", "## two\n", "## none\n\n## two\n"),
    "other output in a document": ("x.md", "a\nb\nc\n```", "a\nB\nc\n```"),
    "failing first step in a document": ("x.md", "add b", "fail"),
    "other error in a document": ("x.md", "\nno\n", "\nyes\n"),
    "error as output in a document": ("x.md", "error, ", ""),
    "other exit status in a document": ("x.md", "exits 3", "exits 4"),
    "other file in a document": ("x.md", "\nx\n```\n\n<!-- session -->", "\ny\n```\n\n<!-- session -->"),
    "document without a session": ("x.md", "<!-- session", "<!-- other"),
    "unknown word of a document": ("x.md", "exits", "leaves"),
    "end of a directive missing": ("x.md", "exits 3 -->", "exits 3 ->"),
    "directive without a block": ("x.md", "exits 3 -->\n", "exits 3 -->\n\n"),
}


def told(root, program, files, write=False):
    """Number of problems of these files."""
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text)
    with tempfile.TemporaryDirectory() as folder:
        setups = Setups(program, folder, None, root / "setup")
        order = sorted(files, key=lambda name: not name.startswith("setup/"))
        return sum(len(run_file(setups, root / name, write)[1]) for name in order)


def selftest():
    """A runner that cannot fail proves nothing."""
    wrong = []
    with tempfile.TemporaryDirectory() as tmp:
        root = Path(tmp)
        program = root / "program"
        program.write_text(PROGRAM)
        program.chmod(0o755)
        if told(root, program, GOOD):
            wrong.append("good")
        for title, (name, old, new) in BAD.items():
            bad = GOOD | {name: GOOD[name].replace(old, new)}
            if bad == GOOD or not told(root, program, bad):
                wrong.append(title)
        for name in ("x.session", "x.md"):  # what --update writes is what was written
            spoilt = re.sub(r"(?m)^(a|\\y|nan|no|! no|\?3)$\n", "other\n", GOOD[name])
            told(root, program, GOOD | {name: spoilt}, write=True)
            if (root / name).read_text() != GOOD[name]:
                wrong.append(f"update of {name}")
        (root / "x.session").unlink()
        if not run_file(Setups(program, tmp), root / "x.session")[1]:
            wrong.append("missing session")
        said = (b'areo 1.2.3 (tables 0a1b) tables 0a1b "areo":"1","tables":"0f" /tmp/x '
                b"<style>a\n@media print {b}</style>c</style>")  # fmt: skip
        if masked(said, "/tmp/x") != (b"areo VERSION (tables DIGEST) tables 0a1b "
                                      b'"areo":"VERSION","tables":"DIGEST" TMP '
                                      b"<style>STYLE</style>c</style>"):  # fmt: skip
            wrong.append("what is masked")
    print(f"selftest: {'wrong about ' + ', '.join(wrong) if wrong else 'ok'}")
    return len(wrong)


def sessions(given):
    for path in given or [HERE]:
        yield from sorted(path.rglob("*.session")) if path.is_dir() else [path]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=Path)
    parser.add_argument("--update", action="store_true")
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--selftest", action="store_true")
    parser.add_argument("sessions", nargs="*", type=Path)
    args = parser.parse_args()
    if args.selftest:
        return 1 if selftest() else 0
    if not args.program:
        parser.error("--program is needed")
    if args.keep:
        args.keep.mkdir(parents=True, exist_ok=True)
    looked_at, failed = 0, 0
    with tempfile.TemporaryDirectory(prefix="areo-session-setups") as folder:
        setups = Setups(args.program.resolve(), folder, args.keep)
        for path in sessions(args.sessions):
            number, problems = run_file(setups, path.resolve(), args.update)
            looked_at += number
            failed += len(problems)
            for problem in problems:
                print(problem)
    print(f"{looked_at} outputs, {failed} differ")
    return 1 if failed or not looked_at else 0


if __name__ == "__main__":
    sys.exit(main())
