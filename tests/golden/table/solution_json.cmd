rc=0
areo table solution sugar --from 1.040 --to 1.050 --step 0.010 --json
