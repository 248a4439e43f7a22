rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.000 21C --on 01.03.2026
