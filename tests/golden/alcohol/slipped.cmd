rc=3
areo alcohol 1.048 1.9 --temp 20C
