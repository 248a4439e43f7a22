rc=0
areo budget alcohol --help
