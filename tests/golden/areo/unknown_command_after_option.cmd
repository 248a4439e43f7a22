rc=2
areo --notebook x.db convrt 1.048
