rc=0
areo instrument add '<b>|*_`x`[a](b)' --from 0.990 --to 1.100 --division 0.002 --on 2026-02-28
areo calibrate water '<b>|*_`x`[a](b)' 1.001 21C --on 2026-03-01T10:00Z
areo calibrate sugar '<b>|*_`x`[a](b)' 1.042 21C --solute 52g --water 448g --on 2026-03-01T10:20Z
areo calibrate sugar '<b>|*_`x`[a](b)' 1.083 21C --solute 100g --water 400g --on 2026-03-01T10:40Z
areo calibrate fit '<b>|*_`x`[a](b)'
areo certificate '<b>|*_`x`[a](b)' --by '# <script>' --place 'a|b\' --format markdown --on 2026-04-01
