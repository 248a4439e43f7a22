rc=0
instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
calibrate water stem-1 1.002 21C --on 2026-03-01
calibrate sugar stem-1 1.041 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.081 21C --solute 97g --water 403g --on 2026-03-02
calibrate fit stem-1
instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --on 2026-02-28
batch add PT-1 --drink 'pear and thyme' --vessel jar --volume 5L --on 2026-03-02
reading add PT-1 1.048 --temp 21C --original --instrument stem-1 --on 2026-03-02T10:00
reading add PT-1 7.8Bx --temp 21C --instrument prism-1 --on 2026-03-06T10:00
table log --batch PT-1 --rows 2
