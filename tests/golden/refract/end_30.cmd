rc=0
areo refract 7.2Bx --temp 30C --original 12.4Bx --original-temp 30C
