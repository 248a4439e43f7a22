rc=1
areo alcohol --csv cultures.csv --temp 20C --limit 0.5
