rc=1
areo alcohol 1.020 --temp 20C --sugar 150g --water 5L --culture mixed --limit us-0.5
