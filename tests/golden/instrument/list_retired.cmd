rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --atc
areo instrument retire stem-1 --reason broke --on 2025-06-01
areo instrument list
