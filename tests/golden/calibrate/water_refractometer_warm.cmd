rc=3
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo calibrate water prism-1 0 26C --on 2026-03-01T10:00Z
