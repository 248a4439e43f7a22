rc=0
areo budget refract 12.4Bx --temp 24C --atc
