rc=3
areo refract 12.4 --temp 20C
