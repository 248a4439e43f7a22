rc=3
areo table temperature --warmest 86C
