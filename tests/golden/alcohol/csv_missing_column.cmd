rc=4
areo alcohol --csv -
