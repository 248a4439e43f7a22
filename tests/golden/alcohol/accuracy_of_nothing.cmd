rc=2
areo alcohol 1.048 1.009 --temp-accuracy 0.2C
