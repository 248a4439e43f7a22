rc=0
areo alcohol 1.018 1.015 --temp 20C --limit 0.55 --level 80
