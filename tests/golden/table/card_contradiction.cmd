rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 0.998 20C --on 2026-03-01
areo calibrate sugar stem-1 1.041 20C --solute 50g --water 450g --on 2026-03-01
areo calibrate sugar stem-1 1.090 20C --solute 97g --water 403g --on 2026-03-01
areo table card stem-1 --step 12C --at 2026-06-01
