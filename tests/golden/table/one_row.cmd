rc=3
areo table conversion --from 1.000 --to 1.010 --step 0.2 --columns P
