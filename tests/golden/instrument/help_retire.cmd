rc=0
areo instrument retire --help
