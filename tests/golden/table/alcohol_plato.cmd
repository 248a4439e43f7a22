rc=0
areo table alcohol --from 0P --to 4P --step 1P --originals 10P,12P
