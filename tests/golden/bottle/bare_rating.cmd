rc=3
areo bottle PT-1 --rating 6
