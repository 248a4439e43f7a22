rc=0
areo calibrate salt --help
