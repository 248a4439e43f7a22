rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.001 --on 2026-02-28
areo calibrate water stem-1 1.001 20C --on 2026-03-01T10:30Z
areo calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --on 2026-03-01T10:40Z
areo calibrate fit stem-1
areo budget correct 1.048 --temp 27C --instrument stem-1
