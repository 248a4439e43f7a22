rc=3
areo solution sugar --target 84.95P --total 500g
