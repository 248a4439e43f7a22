rc=3
areo correct 1.020 --temp 84C --temp-accuracy 8C
