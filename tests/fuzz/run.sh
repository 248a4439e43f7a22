#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fuzzes: builds the harnesses and runs each of them for so many seconds.
# usage: sh tests/fuzz/run.sh SECONDS [csv|export|moment|session|typed]...      all unless named
# What is found lies in build/fuzz/found, and what was learnt in build/fuzz/learnt, for the next run.
# A finding becomes small with: build/fuzz/tests/fuzz/fuzz_csv -minimize_crash=1 -runs=100000 FILE
# A new input that is worth keeping goes to tests/fuzz/corpus, where every build replays it.
set -eu

cd "$(dirname "$0")/../.."
case ${1-} in
  '' | *[!0-9]*) echo "usage: sh $0 SECONDS [csv|export|moment|session|typed]..." >&2; exit 2 ;;
esac
seconds=$1
shift
[ $# -gt 0 ] || set -- csv export moment session typed
sh src/cmake/packages.sh ci
AREO_TARGET=areo_fuzz sh src/cmake/build.sh build/fuzz -C src/cmake/fuzz.cmake

# In memory where that can be: a notebook waits for the disk at each change.
if [ -w /dev/shm ]; then TMPDIR=$(mktemp -d -p /dev/shm); else TMPDIR=$(mktemp -d); fi
export TMPDIR
trap 'rm -rf "$TMPDIR"' EXIT
# Where memory came from is not recorded, which is quicker; a finding is run once more with it.
quick=malloc_context_size=0:quarantine_size_mb=16
here=$PWD/build/fuzz
mkdir -p "$here/found"
failed=
for name in "$@"; do
  case $name in  # longest input; a notebook's harness prints into files of its own
    csv) options='-max_len=4096' ;;
    moment) options='-max_len=40' ;;
    typed) options='-max_len=64' ;;
    export) options='-max_len=12000 -close_fd_mask=2' ;;
    session) options='-max_len=2000 -close_fd_mask=2' ;;
    *) echo "fuzz: no harness is called $name" >&2; exit 2 ;;
  esac
  dictionary=$PWD/tests/fuzz/words/$name.dict
  [ ! -f "$dictionary" ] || options="$options -dict=$dictionary"
  mkdir -p "$here/learnt/$name"
  log=$here/$name.log
  if ASAN_OPTIONS=$quick "$here/tests/fuzz/fuzz_$name" $options -max_total_time="$seconds" -timeout=60 \
    -rss_limit_mb=3000 -print_final_stats=1 -artifact_prefix="$here/found/$name-" \
    "$here/learnt/$name" "$PWD/tests/fuzz/corpus/$name" >"$log" 2>&1; then
    echo "$name: $(grep -o 'Done .*' "$log")"
  else
    failed=1
    found=$(grep -o "$here/found/$name-[^ ]*" "$log" | tail -n 1)
    echo "$name: found ${found:-see $log}"
    # Once more, with its words on the screen.
    [ -z "$found" ] || "$here/tests/fuzz/fuzz_$name" "$found" 2>&1 |
      grep -E 'what\(\)|ERROR|runtime error|SUMMARY|areo: defect' || :
  fi
done
[ -z "$failed" ]
