rc=4
areo correct 1.048 --temp 24C --instrument stem-1
