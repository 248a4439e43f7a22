rc=2
areo alcohol 1.004 --temp 20C --sugar 450g --volume 5L
