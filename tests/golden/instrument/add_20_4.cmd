rc=0
areo instrument add stem-2 --scale SG20/4 --from 0.990 --to 1.100
