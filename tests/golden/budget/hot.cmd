rc=0
areo budget correct 1.050 --temp 55C
