rc=0
areo alcohol 1.018 1.016 --temp 20C --culture mixed --limit us-0.5 --monte-carlo --seed 1
