rc=3
areo solution sugar --target 1.001 --total 50g --balance 5g
