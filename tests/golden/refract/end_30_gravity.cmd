rc=0
areo refract 7.2Bx --temp 30C --gravity 1.014 --gravity-temp 40C
