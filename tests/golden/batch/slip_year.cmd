rc=3
areo batch add X --volume 5L --on 2016-05-01
