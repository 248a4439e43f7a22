rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo budget correct 12.4 --temp 24C --instrument prism-1
