#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: sh tests/lint/format.sh [--fix|--selftest]      clang-format over all our C++ files
set -eu
cd "$(dirname "$0")/../.."
if [ "${1-}" = --selftest ]; then
  # Needs .clang-format: a bad file in a directory below the root finds it.
  if printf 'int  f( ){return 1 ;}\n' | clang-format --dry-run -Werror --assume-filename=src/x.cpp \
    2>/dev/null; then
    echo 'selftest: a badly laid out file was accepted'
    exit 1
  fi
  printf 'int f() { return 1; }\n' | clang-format --dry-run -Werror --assume-filename=src/x.cpp
  exit
fi
files=$(find include src tests docs -name '*.[ch]pp' | sort)
[ -n "$files" ] || { echo 'no file found'; exit 1; }
if [ "${1-}" = --fix ]; then
  clang-format -i $files
else
  clang-format --dry-run -Werror $files
fi
