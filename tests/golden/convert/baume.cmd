rc=0
areo convert 6.5Be
