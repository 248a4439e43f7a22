rc=0
areo table conversion --from 1000 --to 1004 --columns P
