rc=2
areo convert
