rc=1
areo alcohol 1.018 1.010 --temp 20C --culture acetic --limit 0.5
