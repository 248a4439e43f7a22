rc=2
areo alcohol --csv - --monte-carlo
