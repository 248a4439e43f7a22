rc=2
table log --rows -1
