rc=4
areo instrument add probe-1 --kind thermometer --division 1C
areo correct 1.048 --temp 24C --instrument probe-1
