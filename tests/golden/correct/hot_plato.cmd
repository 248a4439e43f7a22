rc=0
areo correct 11.5P --temp 170F
