rc=3
areo solution sugar --target 0.990 --total 500g
