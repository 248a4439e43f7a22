rc=2
areo refract 7.8Bx --temp 22C --gravity 1.012 --culture mixed
