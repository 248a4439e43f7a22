rc=0
areo table temperature --coldest 20C --warmest 22C --readings 1.040,1.050 --format html --paper Letter
