rc=0
areo table dilution --from 10P --to 12P --wanted 8P
