rc=0
areo calibrate fit --help
