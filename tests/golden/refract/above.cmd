rc=1
areo refract 13Bx --temp 20C --original 12.4Bx
