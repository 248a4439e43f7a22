rc=0
areo calibrate boiling --help
