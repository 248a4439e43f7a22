rc=0
areo correct 1.048 --temp 27C --temp-accuracy 0.1C --division 0.001
