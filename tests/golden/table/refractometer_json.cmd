rc=0
areo table refractometer --from 11 --to 12 --originals 12 --json
