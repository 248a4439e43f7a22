rc=3
areo correct 1.048 --temp 86C
