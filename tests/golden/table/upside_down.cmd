rc=3
areo table conversion --from 1.040 --to 1.030
