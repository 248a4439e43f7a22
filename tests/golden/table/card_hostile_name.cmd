rc=0
instrument add '<b onclick="x">*a* | b\\' --on 2026-02-28
table card '<b onclick="x">*a* | b\\' --step 12C --format html --at 2026-06-01
