rc=3
areo table conversion --columns P,furlong
