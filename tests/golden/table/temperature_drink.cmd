rc=0
areo table temperature --coldest 18C --warmest 30C --step 4C --readings 0.990,1.000,1.010 --alcohol 8
