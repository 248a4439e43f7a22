rc=3
areo solution sugar --solute 52g --water 0g
