rc=0
areo table strength --to 100 --step 20 --reference 60F
