rc=0
areo table solution sugar --from 1.010 --to 1.080 --step 0.010
