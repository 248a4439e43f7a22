rc=2
areo alcohol 1.048 1.009 --temp 20C --instrument stem-1 --division 0.001
