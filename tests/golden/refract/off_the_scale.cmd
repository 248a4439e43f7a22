rc=3
areo refract 40Bx --temp 20C
