rc=0
areo refract --csv -
