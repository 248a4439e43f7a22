rc=1
areo alcohol --csv series.csv
