rc=0
areo table refractometer --from 2 --to 12 --originals 10,12
