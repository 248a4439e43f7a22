rc=0
instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
table card stem-1 --step 4C --at 2026-06-01
