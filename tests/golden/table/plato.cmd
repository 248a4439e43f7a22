rc=0
areo table conversion --from 0P --to 25P --step 5 --columns SG,kg/m3,g/L
