#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The demonstration must print docs/demo/transcript.txt to the letter.
# usage: sh transcript.sh PROGRAM [--update]
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
expected=$root/docs/demo/transcript.txt
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
AREO=$1 AREO_NOTEBOOK=$scratch/notebook.db AREO_OUT=$scratch LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 \
  sh "$root/docs/demo/scenario.sh" >"$scratch/out" </dev/null
if [ "${2-}" = --update ]; then
  cp "$scratch/out" "$expected"
fi
diff -u "$expected" "$scratch/out"
