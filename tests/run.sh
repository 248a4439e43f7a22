#!/bin/sh
# Builds everything and runs all tests but those in the browser and the lints.
# usage: sh tests/run.sh [release|asan|clang|dev]      from anywhere; default release
#   clang: of a second compiler only what computes and prints, the rooms and the golden cases
set -eu

cd "$(dirname "$0")/.."
preset=${1-release}
if [ $# -gt 1 ] || [ ! -f "src/cmake/$preset.cmake" ]; then
  echo "usage: sh $0 [release|asan|clang|dev]" >&2
  exit 2
fi
case $preset in
  clang) packages=ci tests="-L unit|published|golden -E ^cli[.]" ;;
  *) packages=test tests="-LE browser|lint" ;;
esac
sh src/cmake/packages.sh $packages
sh src/cmake/build.sh "build/$preset" -C "src/cmake/$preset.cmake"
ctest --test-dir "build/$preset" $tests --output-on-failure -j2 </dev/null
