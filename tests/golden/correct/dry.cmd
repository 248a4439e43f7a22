rc=0
areo correct 0.994 --temp 20C
