rc=3
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo calibrate salt prism-1 5.0 20C --solute 20g --water 480g --on 2026-03-01T10:00Z
