rc=0
areo table conversion --from 0P --to 2P --step 1 --columns SG --full
