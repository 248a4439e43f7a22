rc=0
areo instrument show --help
