rc=3
areo instrument add probe-1 --kind thermometer
areo certificate probe-1
