#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes the pictures of the README anew: runs the demonstration in a notebook that is thrown away,
# photographs the report in a browser and the card as it is printed. All data are invented.
# usage: sh docs/pictures/make.sh PROGRAM      from anywhere
# Needs chromium and pdftoppm; the Python library for pictures comes with WeasyPrint.
set -eu

program=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export AREO="$program" AREO_OUT="$scratch" AREO_NOTEBOOK="$scratch/notebook.db" LC_ALL=C.UTF-8 TZ=UTC \
  NO_COLOR=1
sh "$here/../demo/scenario.sh" >"$scratch/printed" </dev/null
cd "$scratch"

chromium --headless --no-sandbox --hide-scrollbars --force-device-scale-factor=1 \
  --window-size=1000,1480 --screenshot=report-full.png "file://$scratch/pt-2.html" 2>"$scratch/log"
"$program" table card stem-1 --at 2026-03-20 --out card.pdf >/dev/null
pdftoppm -r 100 -png -singlefile card.pdf card-full

# The commonest colours are enough for a page, and make a small file.
/usr/bin/python3 - "$here" <<'END'
import sys
from PIL import Image

for name in ("report", "card"):
    image = Image.open(f"{name}-full.png").convert("RGB")
    counted = sorted(image.getcolors(image.width * image.height), reverse=True)[:128]
    palette = Image.new("P", (1, 1))
    palette.putpalette([part for _, colour in counted for part in colour])
    few = image.quantize(palette=palette, dither=Image.Dither.NONE)
    few.save(f"{sys.argv[1]}/{name}.png", optimize=True)
END
ls -l "$here"/*.png
