rc=3
areo convert 10P --to SG,kg/m3@95C
