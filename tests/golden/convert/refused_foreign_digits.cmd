rc=3
areo convert １.０５
