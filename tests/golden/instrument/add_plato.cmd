rc=0
areo instrument add stem-3 --scale P --from 0 --to 20P --division 0.25
