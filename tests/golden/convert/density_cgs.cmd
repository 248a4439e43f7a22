rc=0
areo convert 1.048g/cm3
