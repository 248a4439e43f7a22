rc=2
areo convrt 1.048 --json
