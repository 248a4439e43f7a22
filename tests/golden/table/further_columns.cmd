rc=0
areo table conversion --from 0P --to 60P --step 10 --columns nD,potential,P,P
