rc=0
areo instrument add stem --division 0.002 --on 2026-04-30
areo calibrate water stem 1.001 20C --on 2026-05-01T10:00
areo calibrate fit stem
areo batch add X --volume 4L --on 2026-05-02
areo reading add X 1.050 --temp 20C --original --on 2026-05-02T10:00
areo reading add X 1.030 --temp 20C --on 2026-05-06T10:00
areo calibrate water stem 1.006 20C --on 2026-05-07T10:00
areo calibrate fit stem --since 2026-05-07
areo reading add X 1.020 --temp 20C --on 2026-05-10T10:00
areo batch show X
