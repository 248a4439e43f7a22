rc=0
areo budget alcohol 1.050 1.012 --temp 20C
