rc=2
areo instrument add probe-1 --kind thermometer --scale P
