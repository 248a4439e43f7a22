rc=3
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate boiling probe-1 99C --pressure 982 --on 2026-03-01T10:00Z
