rc=0
areo certificate --help
