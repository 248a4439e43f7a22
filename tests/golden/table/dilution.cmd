rc=0
areo table dilution
