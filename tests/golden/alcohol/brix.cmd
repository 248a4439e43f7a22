rc=0
areo alcohol 12Bx 7Bx --temp 20C
