rc=3
areo alcohol 1.004 --temp 20C --sugar 450g --water 0L
