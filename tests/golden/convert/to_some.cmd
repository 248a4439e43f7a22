rc=0
areo convert 12.5P --to SG,kg/m3@15C,SG20/4
