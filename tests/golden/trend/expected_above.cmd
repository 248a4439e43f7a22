rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.002 21C --on 2026-03-01
areo calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
areo calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-01
areo calibrate fit stem-1
areo batch add PT-1 --drink 'pear and thyme' --culture mixed --vessel jar --volume 5L --on 2026-03-02
areo reading add PT-1 1.048 1.047 1.048 --temp 27C --original --on 2026-03-02T10:00
areo reading add PT-1 1.0475 --temp 21C --on 2026-03-03T10:00
areo reading add PT-1 1.0445 --temp 21C --on 2026-03-04T10:00
areo reading add PT-1 1.037 --temp 21C --on 2026-03-05T10:00
areo reading add PT-1 1.028 --temp 21C --on 2026-03-06T10:00
areo reading add PT-1 1.0195 --temp 21C --on 2026-03-07T10:00
areo reading add PT-1 1.0145 --temp 21C --on 2026-03-08T10:00
areo reading add PT-1 1.012 --temp 21C --on 2026-03-09T10:00
areo reading add PT-1 1.0105 --temp 21C --on 2026-03-10T10:00
areo reading add PT-1 1.010 --temp 21C --on 2026-03-11T10:00
areo reading add PT-1 1.010 --temp 21C --on 2026-03-12T10:00
areo reading add PT-1 1.010 --temp 21C --on 2026-03-13T10:00
areo trend PT-1 --expected 1.020
