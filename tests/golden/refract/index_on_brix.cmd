rc=3
areo instrument add prism-1 --kind refractometer --on 2026-02-28
areo refract 1.3512nD --temp 20C --instrument prism-1
