rc=3
areo instrument add kilo-1 --scale kg/m3 --from 980 --to 1130 --division 2
areo correct 1.050 --temp 20C --instrument kilo-1
