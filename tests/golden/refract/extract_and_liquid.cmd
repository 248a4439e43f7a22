rc=2
areo refract 12.4Bx --temp 20C --extract malt --liquid pear
