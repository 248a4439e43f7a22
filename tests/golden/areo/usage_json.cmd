rc=2
areo solution honey --json
