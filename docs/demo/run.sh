#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# From a bare Debian machine to the demonstration: packages, library and program, scenario.
# usage: sh docs/demo/run.sh      from anywhere
# AREO_PRESET: builds build/$AREO_PRESET with the flags of that preset instead of build/demo.
set -eu

cd "$(dirname "$0")/../.."
sh src/cmake/packages.sh build
preset=${AREO_PRESET:+-C src/cmake/$AREO_PRESET.cmake}
build=build/${AREO_PRESET:-demo}
sh src/cmake/build.sh "$build" ${preset:--DCMAKE_BUILD_TYPE=Release} \
  -DAREO_BUILD_TESTS=OFF -DAREO_BUILD_BENCH=OFF

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
rm -rf "$build/out"
mkdir -p "$build/out"
# AREO: the program. AREO_OUT: files worth keeping, such as the HTML report.
AREO=$PWD/$build/areo AREO_OUT=$PWD/$build/out AREO_NOTEBOOK=$scratch/notebook.db \
  LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 sh docs/demo/scenario.sh </dev/null
printf '\nThe pages are in %s: open them in any browser.\n' "$build/out"
