rc=4
areo instrument show stem-1
