rc=0
areo calibrate sugar --help
