rc=0
areo table conversion --columns P
