rc=2
areo correct 1.048 --temp-accuracy 0.2C
