rc=0
areo alcohol 1.010 1.002 --temp 4C --all
