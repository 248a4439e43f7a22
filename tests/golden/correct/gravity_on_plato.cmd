rc=3
areo instrument add plato-1 --scale P --from 0 --to 20 --division 0.5
areo correct 1.050 --temp 20C --instrument plato-1
