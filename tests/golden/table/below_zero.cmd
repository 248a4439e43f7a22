rc=0
areo table conversion --from -2P --to 2P --step 1 --columns SG
