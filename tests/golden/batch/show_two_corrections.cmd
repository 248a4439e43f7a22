rc=0
areo instrument add stem --division 0.002 --on 2026-04-30
areo batch add X --culture mixed --volume 4L --on 2026-05-01
areo reading add X 1.024 --temp 20C --original --on 2026-05-20T10:00
areo reading add X 1.023 --temp 20C --on 2026-05-24T10:00
areo calibrate water stem 1.004 20C --on 2026-05-25T10:00
areo calibrate sugar stem 1.024 20C --solute 26g --water 474g --on 2026-05-25T10:20
areo calibrate fit stem --from 2026-05-25
areo reading add X 1.022 --temp 20C --on 2026-05-26T10:00
areo batch show X
