rc=0
areo instrument add stem-1 --division 0.002
areo batch add PT-2 --drink plum --volume 5L --on 2026-04-02
areo reading add PT-2 1.050 --temp 24C --original --on 2026-04-02
areo reading add PT-2 1.012 --temp 20C --on 2026-04-12
areo batch show PT-2
