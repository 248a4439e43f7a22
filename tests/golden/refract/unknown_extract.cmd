rc=3
areo refract 12.4Bx --temp 20C --extract sucrse
