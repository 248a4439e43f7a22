rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
