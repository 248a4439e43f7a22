rc=0
areo alcohol 1.148 1.010 --temp 20C
