rc=0
areo batch add PT-1 --volume 5L --on 2026-03-02
areo reading list PT-1
