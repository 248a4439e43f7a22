rc=3
areo convert '[31m1.048'
