rc=3
areo alcohol 1.018 1.015 --temp 20C --limit 0.5%mass
