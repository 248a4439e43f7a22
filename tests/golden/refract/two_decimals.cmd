rc=3
areo instrument add prism-1 --kind refractometer
areo refract 1.05 --temp 20C --instrument prism-1
