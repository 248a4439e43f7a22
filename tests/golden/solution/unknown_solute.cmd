rc=2
areo solution honey --solute 52g --water 448g
