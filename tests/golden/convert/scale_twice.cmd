rc=0
areo convert 1.048 --to SG,P,SG
