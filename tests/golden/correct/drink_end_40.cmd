rc=0
areo correct 1.010 --temp 40C --original 1.035 --original-temp 60C
