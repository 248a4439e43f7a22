rc=0
areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate certificate stem-1 1.000 --correction -0.0006 --expanded 0.0003 --on 2026-03-01T10:00Z
areo calibrate certificate stem-1 1.040 --correction -0.0004 --expanded 0.0003 --on 2026-03-01T10:00Z
areo calibrate certificate stem-1 1.080 --correction -0.0001 --expanded 0.0003 --on 2026-03-01T10:00Z
areo calibrate fit stem-1
areo certificate stem-1 --on 2026-04-01
