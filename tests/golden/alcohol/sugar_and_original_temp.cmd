rc=2
areo alcohol 1.009 --sugar 500g --water 5L --original-temp 20C
