rc=3
areo bottle PT-1 --headspace 60%
