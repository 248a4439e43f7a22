rc=0
areo report --help
