#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs the Debian packages that areo needs and that are missing.
# usage: sh src/cmake/packages.sh build|test|ci
#   build  compiler and libraries     test  ... and what the tests use
#   ci     ... and the browser, the lints, the second compiler and its fuzzer
set -eu

build='g++ cmake ninja-build libboost-dev libgsl-dev libcli11-dev libfmt-dev libsqlite3-dev
  nlohmann-json3-dev fonts-dejavu-core weasyprint'
test="$build libgtest-dev libbenchmark-dev units python3 poppler-utils tzdata"
case ${1-} in
  build) wanted=$build ;;
  test) wanted=$test ;;
  ci) wanted="$test chromium chromium-driver tidy clang-format clang-tidy clang-14
    libclang-rt-14-dev" ;;
  *) echo "usage: sh $0 build|test|ci" >&2; exit 2 ;;
esac

if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
  echo "packages: not a Debian system; install what corresponds to:" $wanted >&2
  exit 0  # the build itself says what it cannot find
fi

missing=
for package in $wanted; do
  case $(dpkg-query -W -f='${db:Status-Abbrev}' "$package" 2>/dev/null || :) in
    ?i*) ;;
    *) missing="$missing $package" ;;
  esac
done
[ -n "$missing" ] || exit 0

if [ "$(id -u)" = 0 ]; then
  as_root=
elif command -v sudo >/dev/null 2>&1; then
  as_root=sudo
else
  echo "packages: missing:$missing" >&2
  echo "packages: neither root nor sudo here; install them as root: apt-get install$missing" >&2
  exit 1
fi

echo "packages: installing$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() {
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 "$@" \
    >>"$log" 2>&1 </dev/null
}
if ! { apt update && apt install --no-install-recommends $missing; }; then
  tail -n 40 "$log" >&2
  echo "packages: apt-get failed; its last lines are above" >&2
  exit 1
fi
