rc=2
areo trend PT-1 --level 95
