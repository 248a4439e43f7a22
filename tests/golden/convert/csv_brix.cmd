rc=0
areo convert --csv - --to SG
