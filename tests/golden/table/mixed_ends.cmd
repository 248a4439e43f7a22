rc=3
areo table conversion --from 1.000 --to 2P
