rc=3
areo refract 12% --temp 20C
