rc=3
areo batch add '' --on 2026-03-02
