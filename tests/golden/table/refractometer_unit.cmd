rc=3
areo table refractometer --from 2P --to 12P
