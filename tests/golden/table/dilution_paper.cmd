rc=2
areo instrument add stem-1
areo table dilution --from 10P --to 12P --wanted 8P --paper A4
