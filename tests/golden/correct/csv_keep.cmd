rc=1
areo correct --csv - --to SG --keep colour --keep "pH, at 20"
