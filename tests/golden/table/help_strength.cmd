rc=0
areo table strength --help
