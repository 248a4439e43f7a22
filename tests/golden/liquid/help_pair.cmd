rc=0
areo liquid pair --help
