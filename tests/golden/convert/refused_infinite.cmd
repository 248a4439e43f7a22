rc=3
areo convert inf
