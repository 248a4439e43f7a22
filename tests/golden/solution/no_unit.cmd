rc=3
areo solution sugar --solute 52 --water 448g
