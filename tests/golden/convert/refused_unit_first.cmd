rc=3
areo convert P12
