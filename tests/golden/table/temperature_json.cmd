rc=0
areo table temperature --coldest 20C --warmest 21C --readings 1.040 --json
