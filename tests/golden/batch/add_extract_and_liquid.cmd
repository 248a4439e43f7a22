rc=2
areo batch add PT-1 --extract malt --liquid pear-juice
