rc=0
table log --rows 2 --format html
