rc=0
areo alcohol 1.018 1.016 --temp 20C --limit us-0.5
