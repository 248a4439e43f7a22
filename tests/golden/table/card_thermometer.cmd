rc=0
instrument add probe-1 --kind thermometer --division 1C --on 2026-02-28
calibrate ice probe-1 0.5C --on 2026-03-01
calibrate boiling probe-1 99.0C --altitude 300m --on 2026-03-01
calibrate fit probe-1
table card probe-1 --at 2026-06-01
