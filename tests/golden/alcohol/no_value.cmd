rc=2
areo alcohol
