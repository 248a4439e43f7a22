rc=2
areo correct 1.048 --temp 20C --original-temp 20C
