rc=0
instrument add stem-1 --scale SG60F --from 0.990 --to 1.170 --division 0.001 --on 2026-02-28
calibrate water stem-1 0.998 20C --on 2026-03-01
calibrate sugar stem-1 1.042 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.086 21C --solute 97g --water 403g --on 2026-03-01 --yes
calibrate fit stem-1 --due 2027-03-01
table card stem-1 --coldest 50F --warmest 90F --step 4F --at 2026-06-01
