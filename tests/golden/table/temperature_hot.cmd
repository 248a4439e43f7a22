rc=0
areo table temperature --coldest 40C --warmest 85C --step 15C --readings 1.000,1.040,1.080
