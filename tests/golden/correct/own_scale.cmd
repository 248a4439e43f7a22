rc=0
areo instrument add sugar-1 --scale P --from 0 --to 20 --division 0.5
areo correct 12 --temp 24C --instrument sugar-1
