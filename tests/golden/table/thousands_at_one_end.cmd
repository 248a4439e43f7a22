rc=0
areo table conversion --from 1000 --to 1.004 --step 0.002 --columns P
