rc=0
table log --rows 3
