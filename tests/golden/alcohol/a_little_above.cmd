rc=0
areo alcohol 1.0480 1.0482 --temp 20C
