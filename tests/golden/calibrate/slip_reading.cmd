rc=3
areo instrument add stem --from 0.990 --to 1.120 --division 0.002 --on 2026-04-30
areo calibrate water stem 1.020 20C --on 2026-05-01
