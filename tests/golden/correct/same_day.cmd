rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.001 21C --on 2026-03-01T18:30Z
areo calibrate fit stem-1
areo correct 1.048 --temp 24C --instrument stem-1 --at 2026-03-01
