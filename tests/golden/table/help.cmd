rc=0
areo table --help
