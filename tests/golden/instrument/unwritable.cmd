rc=4
areo instrument add stem-1 --notebook /proc/nowhere/notebook.db
