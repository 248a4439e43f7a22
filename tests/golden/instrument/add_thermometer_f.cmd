rc=0
areo instrument add probe-2 --kind thermometer --from 32F --to 212F --division 2F
