rc=2
areo distillation
