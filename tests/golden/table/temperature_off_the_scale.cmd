rc=3
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo table temperature --instrument stem-1 --readings 1.050,1.150
