rc=4
areo convert --csv own.csv --to P
