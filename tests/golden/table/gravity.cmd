rc=0
areo table conversion --from 1.030 --to 1.040
