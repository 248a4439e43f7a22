rc=3
areo table temperature --readings 1.050,furlong
