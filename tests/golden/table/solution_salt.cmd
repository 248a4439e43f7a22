rc=0
areo table solution salt --from 2P --to 10P --step 2 --total 1kg --balance 0.1g
