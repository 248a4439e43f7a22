rc=0
areo instrument --help
