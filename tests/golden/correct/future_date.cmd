rc=3
areo correct 1.048 --temp 20C --at 2999-01-01
