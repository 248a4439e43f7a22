rc=0
areo correct --help
