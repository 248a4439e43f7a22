rc=3
areo table conversion --from 0P --to 2P --step 0.002SG --columns SG
