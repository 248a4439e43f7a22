rc=2
areo budget alcohol 1.048 1.009 --temp 20C --all
