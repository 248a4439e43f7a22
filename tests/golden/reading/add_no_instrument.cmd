rc=3
areo batch add PT-1 --on 2026-03-02
areo reading add PT-1 1.030 --temp 21C
