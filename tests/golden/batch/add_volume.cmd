rc=3
areo batch add PT-1 --volume 0L
