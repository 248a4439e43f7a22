rc=3
areo convert 95P
