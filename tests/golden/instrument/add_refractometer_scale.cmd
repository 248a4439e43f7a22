rc=3
areo instrument add prism-2 --kind refractometer --scale P
