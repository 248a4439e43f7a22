rc=0
batch add PT-1 --on 2026-03-02
table log --batch PT-1 --rows 2
