rc=3
areo convert 101%vol
