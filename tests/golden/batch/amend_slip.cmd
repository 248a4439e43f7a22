rc=3
areo batch add X --culture mixed --volume 4L --on 2026-05-01
areo batch amend X --volume 4600L --reason 'measured again'
