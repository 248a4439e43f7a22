rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate sugar stem-1 1.042 21C --solute 0g --water 448g
