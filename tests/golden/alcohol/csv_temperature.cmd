rc=0
areo alcohol --csv - --original-temp 30C
