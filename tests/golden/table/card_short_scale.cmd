rc=0
instrument add stem-1 --from 0.990 --to 1.020 --division 0.0005 --on 2026-02-28
table card stem-1 --step 8C --at 2026-06-01
