rc=0
areo table conversion --help
