rc=0
areo table conversion --from 1.000 --to 1.005 --step 0.002 --columns P
