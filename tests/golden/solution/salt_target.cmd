rc=0
areo solution salt --target 1.040 --total 500g --balance 0.1g
