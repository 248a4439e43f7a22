rc=0
areo table refractometer --originals 5,6,7
