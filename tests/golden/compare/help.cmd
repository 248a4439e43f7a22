rc=0
areo compare --help
