rc=0
areo convert 120g/L
