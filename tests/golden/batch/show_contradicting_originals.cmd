rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo batch add PT-1 --volume 5L --on 2026-03-02
areo reading add PT-1 1.048 --temp 21C --original --on 2026-03-02T10:00
areo reading add PT-1 1.056 --temp 21C --original --on 2026-03-02T11:00
areo reading add PT-1 1.030 --temp 21C --on 2026-03-05T18:00
areo batch show PT-1
