rc=2
areo
