#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Writes the tables that areo publishes itself; a test runs it and compares every byte.
# usage: sh generate.sh AREO [FOLDER]      FOLDER: this one unless stated
set -eu
areo=$1
folder=${2-$(dirname "$0")}

publish() {
  name=$1
  shift
  "$areo" table "$@" --csv >"$folder/$name.csv"
}

publish scales-by-gravity conversion --from 0.990 --to 1.150 --step 0.001
publish scales-by-plato conversion --from 0.0P --to 40.0P --step 0.5
publish hydrometer-temperature temperature --coldest 5C --warmest 40C --step 1C \
  --readings 1.000,1.010,1.020,1.030,1.040,1.050,1.060,1.070,1.080,1.090,1.100
publish hydrometer-temperature-5-vol temperature --alcohol 5 --coldest 5C --warmest 40C --step 1C \
  --readings 0.990,1.000,1.010,1.020,1.030
publish brix-hydrometer-temperature temperature --coldest 5C --warmest 40C --step 1C \
  --readings 0Bx,5Bx,10Bx,15Bx,20Bx,25Bx,30Bx
publish alcohol-by-gravity alcohol --from 0.990 --to 1.060 --step 0.002 \
  --originals 1.030,1.040,1.050,1.060,1.070,1.080,1.090,1.100
publish fermenting-by-refractometer refractometer --from 0 --to 24 --step 0.5 \
  --originals 8,10,12,14,16,18,20,22,24
publish ethanol-and-water strength --from 0 --to 20 --step 0.5
publish sugar-solutions solution sugar --from 1.005 --to 1.100 --step 0.005 --total 500g \
  --balance 0.1g
publish salt-solutions solution salt --from 1.005 --to 1.100 --step 0.005 --total 500g --balance 0.1g
publish dilution-with-water dilution --from 1.030 --to 1.120 --step 0.005 \
  --wanted 1.020,1.030,1.040,1.050,1.060,1.070,1.080,1.090,1.100
publish raising-with-sugar dilution --add sugar --from 1.000 --to 1.100 --step 0.005 \
  --wanted 1.020,1.030,1.040,1.050,1.060,1.070,1.080,1.090,1.100
