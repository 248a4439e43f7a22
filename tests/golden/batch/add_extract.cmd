rc=3
areo batch add PT-1 --extract malz
