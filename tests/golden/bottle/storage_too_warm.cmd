rc=3
areo bottle PT-1 --storage 50C
