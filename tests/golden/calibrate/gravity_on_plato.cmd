rc=3
areo instrument add plato-1 --scale P --from 0 --to 20 --division 0.5
areo calibrate water plato-1 1.000 20C --on 2026-03-01
