rc=0
areo budget --help
