rc=0
areo correct --csv - --unit temp=C --unit reading=P
