rc=0
areo instrument add prism-2 --kind refractometer --atc --on 2026-02-28
areo refract 7.8 --temp 27C --original 12.4Bx --original-temp 15C --instrument prism-2 --extract sucrose
