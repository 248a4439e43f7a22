rc=0
areo correct 1.04 --temp 20C
