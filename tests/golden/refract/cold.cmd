rc=3
areo refract 12.4Bx --temp 5C
