rc=3
areo correct 1.048 --temp 20C --temp-accuracy 0C
