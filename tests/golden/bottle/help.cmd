rc=0
areo bottle --help
