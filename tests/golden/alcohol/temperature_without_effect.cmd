rc=2
areo alcohol 1.048 1.009 --temp 20C --original-temp 20C --present-temp 18C
