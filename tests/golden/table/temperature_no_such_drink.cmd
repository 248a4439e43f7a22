rc=0
areo table temperature --coldest 20C --warmest 22C --readings 0.965,0.980,1.000 --alcohol 22
