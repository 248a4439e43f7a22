rc=0
areo convert '120,5 g/L'
