rc=3
areo convert 1.0.5
