rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate ice stem-1 0.5C --on 2026-03-01T10:00Z
