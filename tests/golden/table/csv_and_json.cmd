rc=2
areo table conversion --csv --json
