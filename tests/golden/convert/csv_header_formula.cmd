rc=0
areo convert --csv - --to P --keep =cmd
