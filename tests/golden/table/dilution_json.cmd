rc=0
areo table dilution --from 1.050 --to 1.060 --step 0.010 --wanted 1.040,1.055 --json
