rc=2
areo correct 1.048 --thermometer probe-1
