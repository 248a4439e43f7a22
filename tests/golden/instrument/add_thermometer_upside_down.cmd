rc=3
areo instrument add probe-2 --kind thermometer --from 100C --to 0C
