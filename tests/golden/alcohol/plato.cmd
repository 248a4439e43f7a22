rc=0
areo alcohol 12,0P 2.5P --temp 20C
