rc=0
areo instrument add prism-2 --kind refractometer --scale nD --on 2026-02-28
areo calibrate water prism-2 1.3335 19C --on 2026-03-01T10:00Z
areo calibrate fit prism-2
areo certificate prism-2 --on 2026-04-01
