rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2026-03-01T10:00Z
