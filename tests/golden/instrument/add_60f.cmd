rc=0
areo instrument add stem-2 --scale SG60F --from 0.990 --to 1.100
