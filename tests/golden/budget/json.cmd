rc=0
areo budget alcohol 1.048 1.009 --temp 20C --target 0.28 --json
