rc=0
areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2
areo calibrate water prism-1 0.4 19C --on 2026-03-01T10:00Z
areo calibrate sugar prism-1 14.8 20C --solute 72g --water 428g --balance 0.1g --on 2026-03-01T10:20Z
areo calibrate fit prism-1
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002
areo calibrate water stem-1 1.001 21C --on 2026-03-01T11:00Z
areo calibrate sugar stem-1 1.061 21C --solute 72g --water 428g --balance 0.1g --on 2026-03-01T11:20Z
areo calibrate fit stem-1
areo liquid pair pear-juice 12.8 1.052 --temp 22C --instrument prism-1 --hydrometer stem-1 --on 2026-03-02
areo refract 7.6 --temp 22C --original 12.8Bx --instrument prism-1 --liquid pear-juice
