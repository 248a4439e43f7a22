rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo certificate stem-1
