rc=3
instrument add prism-1 --kind refractometer --scale nD --on 2026-02-28
table card prism-1 --at 2026-06-01
