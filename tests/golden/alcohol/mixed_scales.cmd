rc=0
areo alcohol 12.0P 1.009 --temp 20C
