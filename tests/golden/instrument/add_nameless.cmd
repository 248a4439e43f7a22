rc=3
areo instrument add ''
