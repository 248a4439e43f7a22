rc=1
areo alcohol --csv - --json
