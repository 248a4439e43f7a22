rc=2
areo instrument add stem-2 --kind ruler
