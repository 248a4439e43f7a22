rc=2
areo --notebook "" convert 1.048
