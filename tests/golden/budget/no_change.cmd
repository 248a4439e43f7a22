rc=0
areo budget alcohol 1.048 1.048 --temp 20C
