rc=3
areo correct --csv - --temp 20
