rc=0
areo calibrate  --help
