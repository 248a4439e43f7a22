rc=3
areo convert 10.50
