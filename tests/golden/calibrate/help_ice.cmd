rc=0
areo calibrate ice --help
