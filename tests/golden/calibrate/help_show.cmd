rc=0
areo calibrate show --help
