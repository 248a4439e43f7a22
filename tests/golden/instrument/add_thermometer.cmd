rc=0
areo instrument add probe-1 --kind thermometer --division 1C
