rc=3
areo refract 1Bx --temp 20C --original 12.4Bx
