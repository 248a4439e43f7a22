rc=3
areo convert 12% --json
