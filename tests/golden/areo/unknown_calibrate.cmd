rc=2
areo calibrate watter stem-1 1.001 21C
