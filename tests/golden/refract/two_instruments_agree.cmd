rc=0
areo refract 12.4Bx --temp 20C --original 1.050
