rc=3
areo correct 1.048 --temp 20C --division 2
