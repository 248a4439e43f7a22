rc=3
areo table conversion --from 1.030 --to 1.040 --step 0.0000000001
