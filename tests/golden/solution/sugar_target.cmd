rc=0
areo solution sugar --target 1.040 --total 500g
