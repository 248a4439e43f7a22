rc=0
areo table temperature --coldest 10C --warmest 20C --step 2.5C --readings 12P,0P,6P
