rc=3
areo convert 1e3
