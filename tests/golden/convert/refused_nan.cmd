rc=3
areo convert nan
