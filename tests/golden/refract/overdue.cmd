rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2024-03-02
areo calibrate fit prism-1 --due 2025-03-02
areo refract 11.8 --temp 20C --instrument prism-1 --at 2025-04-01
