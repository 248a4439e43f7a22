rc=0
areo table strength --from 5 --to 6 --step 1 --json
