rc=0
areo table dilution --add sugar --from 6P --to 14P --step 2 --wanted 10P,12P
