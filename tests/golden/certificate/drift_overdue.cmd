rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2024-02-28
areo calibrate water stem-1 1.001 21C --on 2024-03-01T10:00Z
areo calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --on 2024-03-01T10:20Z
areo calibrate sugar stem-1 1.083 21C --solute 100g --water 400g --on 2024-03-01T10:40Z
areo calibrate fit stem-1 --due 2025-03-01
areo calibrate water stem-1 1.003 21C --on 2025-04-01T10:00Z
areo calibrate sugar stem-1 1.044 21C --solute 52g --water 448g --on 2025-04-01T10:20Z
areo calibrate sugar stem-1 1.085 21C --solute 100g --water 400g --on 2025-04-01T10:40Z
areo calibrate fit stem-1 --since 2025-04-01 --due 2026-04-01
areo certificate stem-1 --format markdown --on 2026-05-01
