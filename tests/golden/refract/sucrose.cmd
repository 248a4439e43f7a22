rc=0
areo refract 12.4Bx --temp 24C --extract sucrose --to P,g/L,Oe
