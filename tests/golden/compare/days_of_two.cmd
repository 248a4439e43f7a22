rc=2
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.002 21C --on 2026-03-01
areo calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
areo calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-01
areo calibrate fit stem-1
areo batch add PT-1 --volume 5L --on 2026-03-02
areo reading add PT-1 1.048 --temp 21C --original --on 2026-03-02T10:00
areo reading add PT-1 1.028 --temp 21C --on 2026-03-05T10:00
areo reading add PT-1 1.011 --temp 21C --on 2026-03-09T10:00
areo batch add PT-2 --culture mixed --volume 5L --on 2026-03-02
areo reading add PT-2 1.050 --temp 21C --original --on 2026-03-02T10:00
areo reading add PT-2 1.007 --temp 21C --on 2026-03-10T10:00
areo compare PT-1 PT-2 --on 2026-03-06 --on 2026-03-07
