rc=0
areo refract 12.4Bx --temp 24C --monte-carlo --seed 1
