rc=0
areo convert 4%mass
