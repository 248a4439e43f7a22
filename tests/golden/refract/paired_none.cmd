rc=0
areo refract 12.2Bx --temp 20C --gravity 1.050
