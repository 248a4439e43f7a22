rc=0
areo correct 1.050 --temp 55C
