rc=0
areo table alcohol --from 1.000 --to 1.040 --step 0.040 --originals 1.030,1.040 --json
