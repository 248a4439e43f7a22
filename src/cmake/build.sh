#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Configures and builds quietly; the log is shown only when something fails.
# usage: sh src/cmake/build.sh DIR [cmake options...]     from the root of the sources
# AREO_TARGET: builds that target alone.
set -eu

dir=$1
shift
mkdir -p "$dir"
log=$dir/build.log
echo "building $dir (log: $log)"
jobs=${AREO_JOBS:-$(nproc 2>/dev/null || echo 2)}
if ! { cmake -G Ninja -S . -B "$dir" "$@" && cmake --build "$dir" --parallel "$jobs" \
  ${AREO_TARGET:+--target "$AREO_TARGET"}; } \
  >"$log" 2>&1 </dev/null; then
  grep -E -A 15 'error:|CMake Error|FAILED' "$log" | head -n 120 >&2 || :
  echo "build: failed; the whole log is in $log" >&2
  exit 1
fi
