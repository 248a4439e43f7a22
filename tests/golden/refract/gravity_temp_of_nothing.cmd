rc=2
areo refract 7.8Bx --temp 20C --original 12.4Bx --gravity-temp 20C
