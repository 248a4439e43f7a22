rc=0
areo solution --help
