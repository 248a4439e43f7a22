rc=2
areo alcohol 1.018 1.015 --temp 20C --level 90
