rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2026-03-01T10:00Z
areo calibrate sugar prism-1 14.8 20C --solute 72g --water 428g --balance 0.1g --on 2026-03-01T10:20Z
areo calibrate fit prism-1
areo refract 12.8 --temp 22C --instrument prism-1 --extract malt
