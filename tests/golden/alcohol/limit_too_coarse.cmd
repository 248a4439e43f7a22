rc=1
areo alcohol 1.018 1.012 --temp 20C --division 0.01 --limit 0.5 --all
