rc=4
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo refract --csv readings.csv --instrument prism-9
