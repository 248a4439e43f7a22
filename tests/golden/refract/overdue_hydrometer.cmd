rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2024-03-02
areo calibrate fit prism-1 --due 2025-03-02
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.001 21C --on 2024-03-01T10:00Z
areo calibrate sugar stem-1 1.042 21C --solute 52g --water 448g --on 2024-03-01T10:20Z
areo calibrate sugar stem-1 1.083 21C --solute 100g --water 400g --on 2024-03-01T10:40Z
areo calibrate fit stem-1 --due 2025-03-01
areo refract 7.8 --temp 21C --gravity 1.021 --instrument prism-1 --hydrometer stem-1 --at 2025-04-01
