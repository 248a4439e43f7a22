rc=0
areo alcohol 1.050 1.010 --temp 20C --culture acetic
