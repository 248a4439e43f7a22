rc=0
areo correct --csv - --temp 20C
