rc=0
areo convert 1048kg/m3
