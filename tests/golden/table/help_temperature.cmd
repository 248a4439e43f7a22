rc=0
areo table temperature --help
