rc=2
areo correct 1.048 --temp 20C --instrument stem-1 --division 0.001
