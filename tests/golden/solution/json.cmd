rc=0
areo solution sugar --target 10P --total 500g --json
