rc=3
areo instrument add stem-2 --tolerance 0
