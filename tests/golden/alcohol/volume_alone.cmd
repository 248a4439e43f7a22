rc=2
areo alcohol 1.004 --temp 20C --volume 5L
