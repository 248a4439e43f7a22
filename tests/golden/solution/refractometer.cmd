rc=0
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo solution sugar --solute 50g --water 450g --balance 0.1g --temp 24C --instrument prism-1
