rc=0
areo budget alcohol 1.048 1.009 --original-temp 26C --present-temp 19C --target 0.28
