rc=3
areo refract 12Bx --temp 5C --atc
