rc=3
areo refract 1.050 --temp 20C
