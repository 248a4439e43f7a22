rc=0
areo instrument list
