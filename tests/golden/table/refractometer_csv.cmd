rc=0
areo table refractometer --from 10 --to 12 --originals 11,12 --csv
