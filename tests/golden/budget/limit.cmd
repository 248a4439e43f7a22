rc=2
areo budget alcohol 1.018 1.016 --temp 20C --limit 0.5
