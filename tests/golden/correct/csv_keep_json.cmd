rc=1
areo correct --csv - --to SG --keep colour --json
