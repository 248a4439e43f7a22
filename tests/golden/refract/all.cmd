rc=0
areo refract 7.8Bx --temp 21C --gravity 1.021 --gravity-temp 20C --all
