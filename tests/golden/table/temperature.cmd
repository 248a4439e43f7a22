rc=0
areo table temperature --coldest 15C --warmest 25C
