#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The demonstration under valgrind: no access to what is not there, nothing used before it was set,
# no memory that nobody can free any more.
# usage: sh tests/cli/valgrind.sh PROGRAM       e.g. build/release/areo; takes some minutes
#        sh tests/cli/valgrind.sh --selftest    it must see both in a small bad program
set -eu

here=$(cd "$(dirname "$0")/../.." && pwd)
if [ $# != 1 ]; then
  echo "usage: sh $0 PROGRAM | --selftest" >&2
  exit 2
fi
command -v valgrind >/dev/null || { echo 'install valgrind first: apt-get install valgrind' >&2; exit 1; }
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/out"

# Stands for a program and watches it; what it finds ends the call with 99.
watched() {
  cat >"$scratch/watched" <<END
#!/bin/sh
exec valgrind --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \\
  --show-leak-kinds=definite --track-origins=yes --log-file="$scratch/log.%p" "$1" "\$@"
END
  chmod +x "$scratch/watched"
}

if [ "$1" = --selftest ]; then
  for bad in 'int* p = new int[2]; p = nullptr; return p != nullptr;' \
    'int* p = new int[2](); const int i = p[2]; delete[] p; return i > 1000;'; do
    printf 'int main() { %s }\n' "$bad" >"$scratch/bad.cpp"
    c++ -O0 -o "$scratch/bad" "$scratch/bad.cpp"
    watched "$scratch/bad"
    code=0
    "$scratch/watched" || code=$?
    if [ "$code" != 99 ]; then
      echo "selftest: not seen: $bad"
      exit 1
    fi
  done
  echo 'selftest: ok'
  exit
fi

watched "$(cd "$(dirname "$1")" && pwd)/$(basename "$1")"
if ! AREO=$scratch/watched AREO_OUT=$scratch/out AREO_NOTEBOOK=$scratch/notebook.db \
  LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 sh "$here/docs/demo/scenario.sh" >"$scratch/printed" </dev/null; then
  tail -n 3 "$scratch/printed"
  grep -h -A 30 -E 'Invalid|uninitialised|definitely lost' "$scratch"/log.* | head -n 80
  exit 1
fi
echo "$(ls "$scratch"/log.* | wc -l) calls, no finding"
