rc=1
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo batch add PT-1 --on 2026-03-01
areo import x.csv --batch PT-1
