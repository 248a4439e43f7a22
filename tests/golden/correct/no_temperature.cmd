rc=0
areo correct 1.048
