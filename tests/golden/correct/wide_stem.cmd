rc=0
areo instrument add wide-1 --from 0.95 --to 1.3 --division 0.005
areo correct 1.25 --temp 20C --instrument wide-1
