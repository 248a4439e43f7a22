rc=4
areo calibrate water stem-1 1.000 21C
