rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate certificate stem-1 1.040 --correction 0.4 --expanded 0.0003 --on 2026-03-01
