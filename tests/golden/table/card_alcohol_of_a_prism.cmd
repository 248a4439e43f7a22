rc=2
instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --on 2026-02-28
table card prism-1 --alcohol 5 --at 2026-06-01
