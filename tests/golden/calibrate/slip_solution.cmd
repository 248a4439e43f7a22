rc=3
areo instrument add stem --from 0.990 --to 1.120 --division 0.002 --on 2026-04-30
areo calibrate sugar stem 1.118 20C --solute 500g --water 450g --on 2026-05-01
