rc=4
areo instrument list --notebook notes.txt
