rc=3
areo instrument add stem-2 --from 1.100 --to 0.990
