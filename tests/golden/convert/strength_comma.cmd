rc=0
areo convert 5,0%vol
