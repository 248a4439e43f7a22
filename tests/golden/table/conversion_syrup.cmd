rc=0
areo table conversion --from 70P --to 85P --step 5 --columns SG,nD
