rc=1
areo instrument add plato-1 --scale P --from 0 --to 20 --division 0.5
areo batch add PT-1 --on 2026-03-01
areo import x.csv --batch PT-1
