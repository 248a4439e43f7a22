rc=0
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate ice probe-1 0.5C --on 2024-03-01T10:00Z
areo calibrate boiling probe-1 99.0C --altitude 300m --on 2024-03-01T10:30Z
areo calibrate fit probe-1 --due 2025-03-01
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.001 21C --thermometer probe-1 --on 2025-04-01
areo calibrate fit stem-1 --json
