rc=2
areo alcohol --csv - --sugar 500g --water 5L
