rc=0
instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-02
calibrate fit stem-1 --from 2026-03-02
table card stem-1 --step 8C --at 2026-02-28
