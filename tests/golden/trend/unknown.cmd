rc=4
areo batch add PT-1 --on 2026-03-02
areo trend PT-2
