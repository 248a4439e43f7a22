rc=0
areo refract 1.3512nD --temp 20C --extract sucrose
