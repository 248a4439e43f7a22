rc=0
areo convert 12.5P
