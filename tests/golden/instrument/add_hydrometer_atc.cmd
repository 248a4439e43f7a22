rc=2
areo instrument add stem-1 --atc
