rc=2
areo refract 12Bx --temp 20C --top
