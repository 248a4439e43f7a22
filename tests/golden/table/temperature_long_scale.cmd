rc=0
areo instrument add stem-1 --on 2026-02-28
areo table temperature --instrument stem-1 --step 10C
