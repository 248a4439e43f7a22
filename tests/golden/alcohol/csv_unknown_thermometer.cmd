rc=4
areo instrument add probe-1 --kind thermometer --division 1C
areo alcohol --csv - --thermometer probe1
