rc=2
areo calibrate
