rc=0
areo correct 1.048 --temp 27C --to P --monte-carlo --seed 1
