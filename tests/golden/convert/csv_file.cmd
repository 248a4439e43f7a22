rc=1
areo convert --csv values.csv --to SG,P
