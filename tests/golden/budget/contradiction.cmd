rc=1
areo budget refract 11.0Bx --temp 20C --gravity 1.050 --extract sucrose
