rc=2
areo bottle PT-1 --volume 5L
