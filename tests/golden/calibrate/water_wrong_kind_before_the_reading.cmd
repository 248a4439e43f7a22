rc=3
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate ice probe-1 0.5C --on 2026-03-01T10:00Z
areo calibrate water probe-1 nonsense
