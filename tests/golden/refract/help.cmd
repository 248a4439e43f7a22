rc=0
areo refract --help
