#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The demonstration: from new instruments to the strength of a drink. All data are invented.
# Needs AREO, the program, AREO_NOTEBOOK, a file that does not exist yet, and AREO_OUT, a folder for
# what it makes; run.sh sets them.
set -eu
cd "$(dirname "$0")"

say() { printf '\n# %s\n' "$*"; }
areo() {
  printf '$ areo'
  for word in "$@"; do
    case $word in *' '*) printf " '%s'" "$word" ;; *) printf ' %s' "$word" ;; esac
  done
  printf '\n'
  "$AREO" "$@"
}

printf '# An invented kitchen makes pear-and-thyme drink and owns a new, cheap hydrometer.\n'
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002

say 'A check in clean water: is it off?'
areo calibrate water stem-1 1.002 21C --tap --on 2026-03-01

say 'Two sugar solutions from the kitchen balance: what should it show, what does it show?'
areo solution sugar --target 1.040 --total 500g --instrument stem-1
areo calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --tap --on 2026-03-01
areo calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --tap --on 2026-03-01

say 'The correction, built and stored.'
areo calibrate fit stem-1

say 'Batch PT-1: a warm sample of the fresh mix.'
areo correct 1.048 --temp 27C --instrument stem-1 --at 2026-03-02 --to P,g/L

say 'The same on other scales.'
areo convert 1.048 --to P,Be,Oe,kg/m3

say 'A refractometer, checked in water; a drop of the fresh mix shows 11.8 in it.'
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --tap --on 2026-03-02
areo calibrate fit prism-1

say 'Four days later one drop is enough: how far has it come?'
areo refract 7.8 --temp 21C --original 11.8Bx --original-temp 27C --instrument prism-1 --at 2026-03-06

say 'Nobody wrote down the original? Hydrometer and refractometer together do without.'
areo refract 7.8 --temp 21C --gravity 1.021 --instrument prism-1 --hydrometer stem-1 --at 2026-03-06

say 'Eleven days after the start: how strong is it?'
areo alcohol 1.048 1.011 --original-temp 27C --present-temp 19C --instrument stem-1 --at 2026-03-13

say 'The same batch in the notebook. Its original gravity, three times from one sample.'
areo batch add PT-1 --drink 'pear and thyme' --vessel jar --volume 5L --on 2026-03-02
areo reading add PT-1 1.048 1.047 1.048 --temp 27C --original --on 2026-03-02T10:00

say 'Three days later; then, the next morning, in a hurry and full of bubbles.'
areo reading add PT-1 1.026 --temp 21C --on 2026-03-05T18:00
areo reading add PT-1 1.029 --temp 21C --degassed no --on 2026-03-06T08:00

say 'A gravity does not rise by itself. The reading stays in the notebook, and counts no more.'
areo reading exclude 5 --reason 'full of bubbles'

say 'In the evening, one drop is enough.'
areo reading add PT-1 7.8 --temp 21C --instrument prism-1 --on 2026-03-06T18:00

say 'Eleven days after the start; then sugar goes in, and the original gravity follows it.'
areo reading add PT-1 1.011 --temp 19C --on 2026-03-13T18:00
areo addition add sugar PT-1 100g --on 2026-03-13T18:30
areo reading add PT-1 1.016 --temp 20C --on 2026-03-14T18:00
areo reading add PT-1 1.009 --temp 20C --on 2026-03-20T18:00

say 'All of it: what was read, what went in, and what it says.'
areo batch show PT-1

say 'Batch PT-2 was kept in a spreadsheet: what did it do, and where does it lead?'
areo batch add PT-2 --drink 'pear and thyme' --vessel jar --volume 5L --on 2026-03-02
areo import pt-2.csv --batch PT-2 --instrument stem-1
areo trend PT-2 --plot

say 'The same as a page to show, with the moment it passed half a percent.'
cd "$AREO_OUT"
areo report PT-2 --limit 0.5 --out pt-2.html

say 'On paper: what hangs by the jar, and the trail of the calibration.'
areo table card stem-1 --out card.html
areo certificate stem-1 --by 'the kitchen' --out certificate.html
