rc=0
areo trend --help
