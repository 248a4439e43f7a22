rc=2
areo liquid pair pear-juice 12.8 1.050 --temp-accuracy 0.2C --instrument prism-1 --hydrometer stem-1
