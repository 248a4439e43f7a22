rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo solution sugar --solute 52g --water 448g --temp 21C --instrument stem-1
