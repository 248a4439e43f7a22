rc=0
areo table alcohol --from 0.990 --to 1.050 --step 0.005 --originals 1.040,1.050
