rc=3
areo instrument add stem-2 --from 0.990 --to 1.100 --division 0.5
