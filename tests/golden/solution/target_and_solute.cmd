rc=2
areo solution sugar --solute 52g --water 448g --target 1.040
