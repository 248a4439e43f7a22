#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds everything and runs all tests but those in the browser and the lints.
# usage: sh tests/run.sh [release|asan|clang|dev|tsan]      from anywhere; default release
#   asan: by a second compiler, with address and undefined-behaviour sanitizers
#   clang: by that compiler without them, optimized: the rooms and their agreement with the tables
#   tsan: data races, in the rooms whose tests have threads
set -eu

cd "$(dirname "$0")/.."
preset=${1-release}
if [ $# -gt 1 ] || [ "$preset" = fuzz ] || [ ! -f "src/cmake/$preset.cmake" ]; then
  echo "usage: sh $0 [release|asan|clang|dev|tsan]" >&2
  exit 2
fi
case $preset in
  asan) packages=ci target= tests="-LE browser|lint" ;;
  clang) packages=ci target=areo_rooms tests="-L unit|published|agreement" ;;
  tsan) packages=test target=areo_threads tests="-R ^(core|numeric|front|notebook)$" ;;
  *) packages=test target= tests="-LE browser|lint" ;;
esac
sh src/cmake/packages.sh $packages
AREO_TARGET=$target sh src/cmake/build.sh "build/$preset" -C "src/cmake/$preset.cmake"
ctest --test-dir "build/$preset" $tests --output-on-failure -j2 </dev/null
