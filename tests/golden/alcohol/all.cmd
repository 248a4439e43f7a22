rc=0
areo alcohol 1.048 1.009 --original-temp 26C --present-temp 19C --all
