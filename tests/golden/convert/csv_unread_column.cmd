rc=4
areo convert --csv - --to P
