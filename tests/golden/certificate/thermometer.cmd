rc=0
areo instrument add probe-1 --kind thermometer --division 1C --on 2026-02-01
areo calibrate ice probe-1 0.5C --on 2026-02-28T10:00Z
areo calibrate boiling probe-1 99.0C --altitude 300m --on 2026-02-28T10:30Z
areo calibrate fit probe-1
areo certificate probe-1 --on 2026-04-01
