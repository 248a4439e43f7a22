rc=3
areo instrument add probe-1 --kind thermometer --division 1C
areo calibrate water probe-1 1.001 21C --on 2026-03-01T10:00Z
