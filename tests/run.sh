#!/bin/sh
# Builds everything and runs all tests but those in the browser and the lints.
# usage: sh tests/run.sh [release|asan|dev]      from anywhere; default release
set -eu

cd "$(dirname "$0")/.."
preset=${1-release}
if [ $# -gt 1 ] || [ ! -f "src/cmake/$preset.cmake" ]; then
  echo "usage: sh $0 [release|asan|dev]" >&2
  exit 2
fi
sh src/cmake/packages.sh test
sh src/cmake/build.sh "build/$preset" -C "src/cmake/$preset.cmake"
ctest --test-dir "build/$preset" -LE 'browser|lint' --output-on-failure -j2 </dev/null
