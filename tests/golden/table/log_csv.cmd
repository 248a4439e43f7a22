rc=0
table log --rows 3 --csv
