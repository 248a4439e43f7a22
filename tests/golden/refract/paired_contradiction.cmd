rc=1
areo refract 11.0Bx --temp 20C --gravity 1.050 --extract sucrose
