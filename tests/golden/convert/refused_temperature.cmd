rc=3
areo convert 68C
