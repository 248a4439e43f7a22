rc=3
areo convert "1 050"
