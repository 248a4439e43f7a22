rc=0
areo solution sugar --solute 52g --water 448g --temp 21C
