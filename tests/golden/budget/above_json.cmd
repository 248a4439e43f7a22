rc=1
areo budget alcohol 1.009 1.048 --temp 20C --json
