rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate certificate stem-1 1.040 --correction 0.001 --expanded 0.004 --on 2026-03-01T10:00Z
areo calibrate fit stem-1
areo correct 1.040 --temp 20C --instrument stem-1 --monte-carlo --seed 1
