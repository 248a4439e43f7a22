rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z
areo calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z --yes
