rc=2
areo correct 1.048 --temp 20C --temp 21C
