rc=0
areo alcohol 1.0340 --temp 20C --sugar 450g --water 5L
