rc=2
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate boiling probe-1 99C --on 2026-03-01T10:00Z
