rc=3
areo bottle PT-1 --carbonation 2.5
