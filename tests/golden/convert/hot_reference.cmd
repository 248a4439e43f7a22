rc=0
areo convert 1.050 --to kg/m3@60C,kg/m3@85C,P
