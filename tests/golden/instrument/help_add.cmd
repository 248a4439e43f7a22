rc=0
areo instrument add --help
