rc=2
areo budget alcohol 1.048 1.009 --taget 0.2
