rc=2
areo convert 1.048 --to
