rc=0
areo convert 1.048 --monte-carlo --seed 1
