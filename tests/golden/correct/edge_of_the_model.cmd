rc=0
areo correct 1.048 --temp 39.8C
