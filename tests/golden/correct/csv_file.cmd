rc=1
areo correct --csv readings.csv
