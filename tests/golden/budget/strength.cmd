rc=0
areo budget convert 5.0%vol --target 0.01
