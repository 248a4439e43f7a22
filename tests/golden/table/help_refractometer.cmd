rc=0
areo table refractometer --help
