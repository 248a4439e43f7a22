rc=0
areo refract 7.8Bx --temp 22C --original 12.4BRIX --original-temp 20C
