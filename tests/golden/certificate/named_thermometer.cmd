rc=0
areo instrument add probe-1 --kind thermometer --division 1C --on 2026-02-01
areo calibrate ice probe-1 0.5C --on 2026-02-28T10:00Z
areo calibrate boiling probe-1 99.0C --altitude 300m --on 2026-02-28T10:30Z
areo calibrate fit probe-1
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.001 22C --thermometer probe-1 --on 2026-03-01T10:00Z --note 'from the tap'
areo calibrate sugar stem-1 1.042 --solute 52g --water 448g --top --on 2026-03-01T10:20Z
areo calibrate fit stem-1 --note 'after cleaning'
areo certificate stem-1 --on 2026-04-01
