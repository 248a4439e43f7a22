rc=0
areo budget convert 1.048 --to P
