rc=0
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate boiling probe-1 99.0C --altitude 300m --on 2026-03-01T10:30Z
