rc=3
areo convert "1.05 kg/m3"
