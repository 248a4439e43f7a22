rc=0
areo convert 48Oe
