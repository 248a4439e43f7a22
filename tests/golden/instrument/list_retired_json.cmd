rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2024-02-01T12:00Z
areo instrument retire stem-1 --reason broke --on 2025-06-01
areo instrument list --json
