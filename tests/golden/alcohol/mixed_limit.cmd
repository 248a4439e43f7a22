rc=0
areo alcohol 1.018 1.016 --temp 20C --culture mixed --limit 0.5
