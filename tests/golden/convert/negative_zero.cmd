rc=0
areo convert -0P --to P,SG
