rc=3
areo instrument add stem --from 0.990 --to 1.120 --division 0.002 --on 2026-04-30
areo calibrate water stem 1.002 20C --on 2026-05-01T10:00
areo calibrate water stem 1.002 20C --on 2026-05-01T10:00
