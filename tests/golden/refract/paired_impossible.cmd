rc=3
areo refract 4Bx --temp 20C --gravity 1.050
