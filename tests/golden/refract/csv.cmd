rc=1
areo refract --csv readings.csv
