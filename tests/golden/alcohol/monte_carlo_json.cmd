rc=1
areo alcohol 1.018 1.015 --temp 20C --limit 0.5 --monte-carlo --seed 1 --json
