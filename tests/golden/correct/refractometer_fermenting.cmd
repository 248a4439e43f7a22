rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo correct 7.8 --temp 20C --instrument prism-1 --original 12.4
