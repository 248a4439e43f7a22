rc=3
areo table refractometer --from 12 --to 2
