rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.002 21C --on 2026-03-01
areo calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
areo calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-01
areo calibrate fit stem-1
areo batch add DR-1 --drink 'dry pear' --culture yeast --vessel jar --on 2026-03-02
areo reading add DR-1 1.030 1.030 1.030 --temp 20C --original --on 2026-03-02T10:00
areo reading add DR-1 1.021 --temp 20C --on 2026-03-04T10:00
areo reading add DR-1 1.009 --temp 20C --on 2026-03-06T10:00
areo reading add DR-1 1.001 --temp 20C --on 2026-03-08T10:00
areo reading add DR-1 0.997 --temp 20C --on 2026-03-10T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-12T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-14T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-16T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-18T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-20T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-22T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-24T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-26T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-28T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-03-30T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-04-01T10:00
areo reading add DR-1 0.996 --temp 20C --on 2026-04-03T10:00
areo bottle DR-1 --carbonation 6g/L --storage 20C
