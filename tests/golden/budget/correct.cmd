rc=0
areo budget correct 1.048 --temp 27C --temp-accuracy 2C --target 0.0012
