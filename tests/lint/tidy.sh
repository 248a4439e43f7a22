#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: sh tests/lint/tidy.sh BUILD_DIR [--selftest]      clang-tidy over src/
# BUILD_DIR holds compile_commands.json. Two at a time: each takes about half a gigabyte.
set -eu
build=$(cd "$1" && pwd)
cd "$(dirname "$0")/../.."
if [ "${2-}" = --selftest ]; then
  scratch=$(mktemp -d)
  trap 'rm -rf "$scratch"' EXIT
  cp .clang-tidy "$scratch"
  printf 'typedef int Number;\n' >"$scratch/bad.cpp"
  if clang-tidy --quiet "$scratch/bad.cpp" -- -std=c++20 >/dev/null 2>&1; then
    echo 'selftest: a typedef was accepted'
    exit 1
  fi
  printf 'using Number = int;\n' >"$scratch/good.cpp"
  clang-tidy --quiet "$scratch/good.cpp" -- -std=c++20
  exit
fi
[ -f "$build/compile_commands.json" ] || { echo "no compile_commands.json in $build"; exit 1; }
log=$(mktemp)
trap 'rm -f "$log"' EXIT
# GCC's own warning options are unknown to clang; that is not a finding.
if ! find src -name '*.cpp' -print0 | sort -z | xargs -0 -r -n 1 -P 2 \
  clang-tidy --quiet -p "$build" --extra-arg=-Wno-unknown-warning-option >"$log" 2>&1; then
  grep -v -E '^[0-9]+ warnings? (generated|treated)|^Suppressed' "$log"
  exit 1
fi
echo "$(find src -name '*.cpp' | wc -l) files"
