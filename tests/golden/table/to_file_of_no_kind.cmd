rc=3
areo table strength --to 1 --out strength
