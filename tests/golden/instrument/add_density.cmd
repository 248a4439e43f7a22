rc=0
areo instrument add stem-3 --scale kg/m3 --from 990 --to 1100 --division 1
