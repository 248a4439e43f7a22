rc=0
areo table strength --to 1 --out strength.md
