rc=0
areo table solution --help
