rc=0
areo alcohol --help
