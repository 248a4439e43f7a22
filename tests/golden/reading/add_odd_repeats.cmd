rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.002 20C --on 2026-03-01T10:00
areo calibrate fit stem-1 --due 2026-06-01
areo calibrate water stem-1 1.006 20C --on 2026-09-01T10:00
areo calibrate fit stem-1 --since 2026-09-01
areo batch add PT-1 --volume 5L --on 2026-03-02
areo reading add PT-1 1.050 --temp 20C --original --on 2026-03-02T10:00
areo reading add PT-1 1.020 --temp 20C --on 2026-06-02T10:00
areo reading add PT-1 1.020 --temp 20C --on 2026-09-02T10:00
areo reading add PT-1 1.010 1.030 --temp 20C --on 2026-09-03T10:00
