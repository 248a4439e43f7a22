rc=0
areo table alcohol --help
