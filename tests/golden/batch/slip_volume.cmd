rc=3
areo batch add X --volume 5000L --on 2026-05-01
