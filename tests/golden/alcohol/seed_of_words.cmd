rc=3
areo alcohol 1.048 1.009 --temp 20C --monte-carlo --seed one
