rc=3
areo refract 7.8Bx --temp 20C --original 0.0Bx
