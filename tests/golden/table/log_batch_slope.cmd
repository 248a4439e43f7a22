rc=0
instrument add stem-1 --scale SG60F --from 0.990 --to 1.170 --division 0.001 --on 2026-02-28
calibrate water stem-1 0.998 20C --on 2026-03-01
calibrate sugar stem-1 1.042 21C --solute 50g --water 450g --on 2026-03-01
calibrate sugar stem-1 1.086 21C --solute 97g --water 403g --on 2026-03-01 --yes
calibrate fit stem-1 --due 2026-03-02
batch add PT-1 --on 2026-03-02
reading add PT-1 1.048 --temp 21C --instrument stem-1 --on 2026-03-02T10:00
table log --batch PT-1 --rows 1
