rc=4
areo backup x
