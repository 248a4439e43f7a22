rc=0
areo instrument add '=cmd|x'
areo instrument add '<b>"; DROP TABLE instrument; --'
areo instrument list
