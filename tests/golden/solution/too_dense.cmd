rc=3
areo solution salt --target 1.300SG --total 500g
