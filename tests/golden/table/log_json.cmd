rc=2
table log --json
