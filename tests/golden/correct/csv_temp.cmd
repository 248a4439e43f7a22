rc=0
areo correct --csv -
