rc=0
table card --help
