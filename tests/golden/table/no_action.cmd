rc=2
areo table
