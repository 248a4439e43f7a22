rc=4
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo refract 12.4Bx --temp 20C --instrument stem-1
