rc=3
areo instrument add t --kind thermometer --from 15C --to 25C --division 1C
areo correct 1.048 --temp 38C --thermometer t
