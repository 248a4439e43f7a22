rc=0
areo convert --help
