rc=3
areo solution sugar --target 0P --total 500g
