rc=2
areo correct
