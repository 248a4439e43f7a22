rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo correct 12P --temp 24C --instrument stem-1
