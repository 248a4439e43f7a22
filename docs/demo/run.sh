#!/bin/sh
# From a bare Debian machine to the demonstration: packages, library and program, scenario.
# usage: sh docs/demo/run.sh      from anywhere
set -eu

cd "$(dirname "$0")/../.."
sh src/cmake/packages.sh build
sh src/cmake/build.sh build/demo -DCMAKE_BUILD_TYPE=Release \
  -DAREO_BUILD_TESTS=OFF -DAREO_BUILD_BENCH=OFF

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
rm -rf build/demo/out
mkdir -p build/demo/out
# AREO: the program. AREO_OUT: files worth keeping, such as the HTML report.
AREO=$PWD/build/demo/areo AREO_OUT=$PWD/build/demo/out AREO_NOTEBOOK=$scratch/notebook.db \
  LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 sh docs/demo/scenario.sh </dev/null
