rc=3
areo convert 0.5g/cm3
