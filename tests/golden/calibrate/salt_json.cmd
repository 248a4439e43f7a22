rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate salt stem-1 1.041 21C --solute 28.5g --water 471.5g --balance 0.1g --on 2026-03-01T10:20Z --json
