rc=3
areo budget alcohol 1.048 1.009 --temp 20C --of alcohol_percent_vo
