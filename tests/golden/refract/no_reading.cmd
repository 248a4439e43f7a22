rc=2
areo refract
