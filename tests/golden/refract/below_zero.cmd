rc=3
areo refract -0.4Bx --temp 25C
