rc=0
areo alcohol 1.048 1.048 --temp 20C
