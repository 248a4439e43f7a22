rc=2
areo refract 7.8Bx --temp 20C --culture mixed
