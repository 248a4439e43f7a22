rc=0
table log --help
