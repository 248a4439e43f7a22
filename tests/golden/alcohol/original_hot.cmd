rc=0
areo alcohol 1.035 1.010 --original-temp 60C --present-temp 40C
