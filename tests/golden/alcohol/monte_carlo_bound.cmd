rc=0
areo alcohol 1.018 1.0175 --temp 20C --monte-carlo --seed 1
