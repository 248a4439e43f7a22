rc=3
areo convert --csv - --to SG,furlong
