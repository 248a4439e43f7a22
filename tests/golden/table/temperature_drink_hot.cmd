rc=3
areo table temperature --alcohol 5 --coldest 20C --warmest 60C --step 10C --readings 1.000,1.010
