rc=1
areo alcohol --csv - --limit us-0.5 --json
