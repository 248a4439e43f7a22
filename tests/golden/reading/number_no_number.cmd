rc=2
areo reading exclude seven --reason 'full of bubbles'
