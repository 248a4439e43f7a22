rc=0
areo refract 0Bx --temp 20C --extract sucrose
