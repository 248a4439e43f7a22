rc=3
areo alcohol 1.000 0.998 --temp 20C
