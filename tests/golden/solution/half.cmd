rc=2
areo solution sugar --solute 52g
