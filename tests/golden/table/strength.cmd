rc=0
areo table strength --to 6
