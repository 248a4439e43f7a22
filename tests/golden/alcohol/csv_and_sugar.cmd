rc=2
areo alcohol --csv - --sugar 500g --volume 5L
