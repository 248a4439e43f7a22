rc=4
areo instrument list --notebook .
