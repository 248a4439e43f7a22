rc=3
areo instrument add plato-1 --scale P --from 0 --to 20 --division 0.5
areo alcohol 1.050 1.010 --temp 20C --instrument plato-1
