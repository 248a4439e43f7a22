rc=0
areo calibrate certificate --help
