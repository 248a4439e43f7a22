rc=2
areo refract --csv readings.csv --gravity 1.012
