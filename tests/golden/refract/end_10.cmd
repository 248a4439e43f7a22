rc=0
areo refract 12.4Bx --temp 10C
