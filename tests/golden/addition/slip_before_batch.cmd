rc=3
areo instrument add stem --from 0.990 --to 1.120 --division 0.002 --on 2026-04-30
areo batch add X --culture mixed --volume 4L --on 2026-05-01
areo reading add X 1.022 --temp 20C --original --on 2026-05-02T10:00
areo addition add sugar X 40g --on 2026-04-03
