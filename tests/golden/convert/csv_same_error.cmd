rc=1
areo convert --csv - --to P
