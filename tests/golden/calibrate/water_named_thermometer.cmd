rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate ice probe-1 1C --on 2026-03-01T09:00Z
areo calibrate fit probe-1
areo calibrate water stem-1 1.001 22C --thermometer probe-1 --on 2026-03-01T10:00Z
