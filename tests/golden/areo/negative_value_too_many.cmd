rc=2
areo convert -5P -6P
