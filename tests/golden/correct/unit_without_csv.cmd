rc=2
areo correct 1.020 --unit temp=C
