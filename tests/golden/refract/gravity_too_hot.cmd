rc=3
areo refract 7.2Bx --temp 24C --gravity 1.005 --gravity-temp 60C
