rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo liquid pair pear-juice 12.8 1.050 --temp 20C --instrument prism-1 --hydrometer stem-1 --on 2026-03-02
areo liquid pair malt-wort 13.2 1.052 --temp 20C --instrument prism-1 --hydrometer stem-1 --on 2026-03-02
areo liquid list
