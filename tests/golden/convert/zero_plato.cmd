rc=0
areo convert 0P
