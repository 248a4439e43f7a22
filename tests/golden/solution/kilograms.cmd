rc=0
areo solution sugar --solute 0.1kg --water 0.4kg
