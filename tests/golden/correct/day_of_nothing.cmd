rc=2
areo correct 1.048 --temp 20C --at 2026-03-01
