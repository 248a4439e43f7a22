rc=3
areo correct 1.048 --temp 20C --at 1/3/2026
