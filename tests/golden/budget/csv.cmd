rc=2
areo budget alcohol --csv readings.csv
