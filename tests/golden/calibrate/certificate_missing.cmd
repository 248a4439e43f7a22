rc=2
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate certificate stem-1 1.040 --correction 0.0004
