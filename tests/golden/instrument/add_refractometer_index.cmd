rc=0
areo instrument add prism-3 --kind refractometer --scale nD --from 1.333 --to 1.384 --division 0.0005 --on 2026-02-28
areo instrument show prism-3
