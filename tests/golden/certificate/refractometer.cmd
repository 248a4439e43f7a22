rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo calibrate water prism-1 0.4 19C --on 2026-03-01T10:00Z
areo calibrate sugar prism-1 10.4 20C --solute 50g --water 450g --balance 0.1g --on 2026-03-01T10:20Z
areo calibrate fit prism-1
areo certificate prism-1 --on 2026-04-01
