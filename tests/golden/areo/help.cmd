rc=0
areo --help
