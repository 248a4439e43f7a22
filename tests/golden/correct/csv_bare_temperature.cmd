rc=1
areo correct --csv bare.csv
