rc=2
areo alcohol 1.048 1.020 1.009
