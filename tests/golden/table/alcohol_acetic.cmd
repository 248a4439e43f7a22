rc=0
areo table alcohol --from 1.000 --to 1.010 --step 0.005 --originals 1.050 --culture acetic
