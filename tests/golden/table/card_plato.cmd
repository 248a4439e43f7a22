rc=0
instrument add stem-1 --scale P --from 0 --to 25 --division 0.5 --on 2026-02-28
calibrate water stem-1 0.5 20C --on 2026-03-01
calibrate fit stem-1
table card stem-1 --step 4C --at 2026-06-01
