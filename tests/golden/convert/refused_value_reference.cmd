rc=3
areo convert 10Bx@95C
