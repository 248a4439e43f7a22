rc=3
areo alcohol 1.020 0.970 --temp 20C
