rc=0
areo table temperature --coldest 60F --warmest 80F --step 5F --readings 1.000SG60F,1.050SG60F
