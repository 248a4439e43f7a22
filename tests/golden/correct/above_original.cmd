rc=3
areo correct 1.060 --temp 20C --original 1.052 --original-temp 20C
