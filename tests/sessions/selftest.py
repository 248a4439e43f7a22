#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The runner of sessions fails for every way in which one can be wrong."""

import re
import sys
import tempfile
from pathlib import Path

from run import Setups, cat, masked, run_file

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


if __name__ == "__main__":
    sys.exit(1 if selftest() else 0)
