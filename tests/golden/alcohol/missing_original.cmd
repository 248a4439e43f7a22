rc=3
areo alcohol 1.009 --temp 20C
