rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2024-03-02
areo calibrate fit prism-1 --due 2025-03-02
areo calibrate water prism-1 0.6 19C --on 2025-04-02
areo calibrate fit prism-1 --since 2025-04-02
areo refract 7.8 --temp 21C --gravity 1.021 --instrument prism-1 --at 2024-09-01 --interpolate
