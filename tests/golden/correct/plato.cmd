rc=0
areo correct 12,5P --temp 15C
