rc=0
areo instrument add prism-2 --kind refractometer --gravity-scale --on 2026-02-28
areo refract 1.048 --temp 20C --instrument prism-2 --extract sucrose
