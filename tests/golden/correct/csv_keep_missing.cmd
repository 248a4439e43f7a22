rc=4
areo correct --csv - --keep colour
