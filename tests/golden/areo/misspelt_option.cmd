rc=2
areo correct 1.048 --tmp 20C
