rc=3
areo convert 1.048 --to SG,furlong
