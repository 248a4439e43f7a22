rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-01 --note "from the fair"
areo instrument show stem-1
