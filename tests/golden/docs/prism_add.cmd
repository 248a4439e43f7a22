rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
