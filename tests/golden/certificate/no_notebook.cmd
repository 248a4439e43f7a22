rc=4
areo certificate stem-1
