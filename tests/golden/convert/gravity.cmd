rc=0
areo convert 1.048
