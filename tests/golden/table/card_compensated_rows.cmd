rc=2
instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --atc --on 2026-02-28
calibrate water prism-1 0.4 19C --on 2026-03-02
calibrate fit prism-1
table card prism-1 --coldest 15C --at 2026-06-01
