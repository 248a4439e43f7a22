rc=4
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo batch add PT-1 --culture mixed --volume 5L --on 2026-03-02
areo reading add PT-1 1.048 --temp 20C --original --on 2026-03-02T10:00
areo import g.csv --batch PT-1 --map m.txt
