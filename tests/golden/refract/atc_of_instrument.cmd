rc=2
areo refract 7.8Bx --temp 20C --atc --instrument prism-1
