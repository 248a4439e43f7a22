rc=2
areo instrument add s --from 0.990 --to 1.100 --division 0.002
areo refract 7.8Bx --temp 20C --original 12.4Bx --hydrometer s
