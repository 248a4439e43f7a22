rc=1
areo instrument add plato-1 --scale P --from 0 --to 20 --division 0.5
areo correct --csv - --instrument plato-1
