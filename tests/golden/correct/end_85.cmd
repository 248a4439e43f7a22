rc=0
areo correct 1.020 --temp 85C
