rc=0
areo correct --csv - --original-temp 26C
