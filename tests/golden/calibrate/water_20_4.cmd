rc=0
areo instrument add stem-2 --scale SG20/4 --from 0.990 --to 1.100
areo calibrate water stem-2 0.998 20C --on 2026-03-01T10:00Z
