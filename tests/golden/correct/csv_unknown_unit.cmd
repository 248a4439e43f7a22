rc=4
areo correct --csv -
