rc=2
areo budget
