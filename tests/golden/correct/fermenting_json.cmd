rc=0
areo correct 1.021 --temp 24C --original 1.052 --original-temp 20C --to P --json
