rc=1
areo alcohol 1.018 1.008 --temp 20C --limit uk-0.5
