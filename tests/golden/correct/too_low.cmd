rc=3
areo correct -7P --temp 20C --original 5P --original-temp 20C
