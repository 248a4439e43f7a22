rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water stem-1 1.001 21C --on 2026-03-01T10:00Z
areo calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --on 2026-03-01T10:20Z
areo calibrate sugar stem-1 1.083 21C --solute 100g --water 400g --on 2026-03-01T10:40Z
areo calibrate fit stem-1
areo calibrate sugar stem-1 1.060 21C --solute 52g --water 448g --on 2026-03-05T10:00Z --yes
areo certificate stem-1 --format markdown --on 2026-04-01
