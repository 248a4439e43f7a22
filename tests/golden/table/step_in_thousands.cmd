rc=0
areo table conversion --from 1000 --to 1010 --step 2 --columns P
