rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --atc --on 2026-02-28
areo calibrate water prism-1 0.4 20C --on 2026-03-02
areo calibrate sugar prism-1 15.2 20C --solute 75g --water 425g --on 2026-03-02
areo calibrate fit prism-1
areo table card prism-1 --at 2026-03-05
