rc=0
areo alcohol 1.020 1.018 --temp 20C --limit us-7.0
