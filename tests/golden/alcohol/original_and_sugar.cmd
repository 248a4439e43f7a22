rc=2
areo alcohol 1.048 1.009 --temp 20C --sugar 500g --water 5L
