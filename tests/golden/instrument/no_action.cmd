rc=2
areo instrument
