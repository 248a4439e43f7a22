rc=0
areo convert 1048.5
