rc=3
areo correct 1.020 --temp 170F --original 1.050 --original-temp 20C
