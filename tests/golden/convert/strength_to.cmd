rc=3
areo convert 5%vol --to P
