rc=0
areo calibrate water --help
