rc=0
areo alcohol --csv -
