rc=0
areo instrument add prism-1 --kind refractometer
areo refract 1.0 --temp 20C --instrument prism-1
