rc=0
areo convert .998
